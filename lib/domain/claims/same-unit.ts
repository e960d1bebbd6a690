import type { ClaimStage } from "./stages";
import { QUEUE_STAGES } from "./stages";

/** Another claim that names the same serial. */
export interface SameUnitClaim {
  id: string;
  reference: string;
  stage: ClaimStage;
  filedAt: Date | null;
  /** From the same e-mail address. */
  isSameCustomer: boolean;
  /** It ended with another unit sent or the money paid back. */
  isReplaced: boolean;
}

/** To whom the unit was sent. */
export interface UnitShipment {
  shippedOn: Date;
  /** The order was placed with the e-mail address of the complaint. */
  isToThisCustomer: boolean;
}

/** What stands out about a unit whose serial is known elsewhere. */
export type UnitNotice =
  | { kind: "filed-twice" | "owner-and-garage" | "replaced-already" | "complained-of-before"; claim: SameUnitClaim }
  | { kind: "sent-to-another"; shippedOn: Date };

/**
 * What is to be noticed about the unit of a complaint: that the same serial waits in another complaint, of the same
 * person (filed twice) or of another (the owner and the garage, or a unit sold on); that it was replaced or paid back
 * already; that it was complained of before; that it was sent to somebody else. It says what may be, and decides nothing.
 *
 * Example: a garage files about the serial its customer complained of yesterday: `owner-and-garage`.
 */
export function noticesOf(claims: readonly SameUnitClaim[], shipment: UnitShipment | null): UnitNotice[] {
  return [
    ...claims.flatMap((claim): UnitNotice[] => {
      if (claim.isReplaced) return [{ kind: "replaced-already", claim }];
      if (claim.stage === "merged" || claim.stage === "withdrawn") return [];
      if (!QUEUE_STAGES.some((open) => open === claim.stage)) return [{ kind: "complained-of-before", claim }];
      return [{ kind: claim.isSameCustomer ? "filed-twice" : "owner-and-garage", claim }];
    }),
    ...(shipment && !shipment.isToThisCustomer ? [{ kind: "sent-to-another" as const, shippedOn: shipment.shippedOn }] : []),
  ];
}

/**
 * That other claims name the same serial, in a word for a list; null where none does.
 *
 * @example sameSerialInWords(["K7A-4821-HXQ", "B2C-1930-TRM"]) // "same serial as K7A-4821-HXQ and 1 more"
 */
export function sameSerialInWords([newest, ...older]: readonly string[]): string | null {
  if (newest === undefined) return null;
  return `same serial as ${newest}${older.length > 0 ? ` and ${older.length} more` : ""}`;
}
