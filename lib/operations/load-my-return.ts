import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { findClaimForCustomer } from "@/lib/data/claims-by-customer";
import { findLastReturn } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { stagesBefore } from "@/lib/domain/claims/lifecycle";
import type { ReturnLabel } from "@/lib/domain/claims/return-label";
import { postalAddress, returnInstructions } from "@/lib/domain/claims/return-instructions";
import type { ReturnState } from "@/lib/domain/claims/stages";
import { scanPath } from "@/lib/domain/claims/scanned-number";
import { env } from "@/lib/env";
import { dayInWords } from "@/lib/messages/dates";
import { sayIn } from "@/lib/messages/words";

export interface MyReturn {
  number: string;
  state: ReturnState;
  /** The last day, and since when it is on its way or here, in words. */
  sendBy: string;
  sentOn: string | null;
  receivedOn: string | null;
  carrier: string | null;
  trackingNumber: string | null;
  whereTo: string;
  steps: readonly string[];
  /** As typed, to be put right; the name is known beforehand. */
  sender: Readonly<Record<"name" | "street" | "postcode" | "place", string>>;
  /** Null until it is known who sends. */
  label: ReturnLabel | null;
}

/**
 * The return of the customer's own claim as the private page tells of it; null when none was asked for, when the bench is
 * done with it, and while a claim that is over waits for nothing.
 */
export async function loadMyReturn(actor: CustomerActor): Promise<MyReturn | null> {
  const [claim, last, seller] = await Promise.all([findClaimForCustomer(actor.claimId), findLastReturn(actor.claimId), loadSettings()]);
  if (!claim || !last || last.state === "dispositioned") return null;
  const isOpen = stagesBefore("decide").includes(claim.stage);
  if (!isOpen) return null;
  const day = (at: Date) => dayInWords(at, actor.language, seller.timeZone);
  const { number, state, senderName, senderStreet, senderPostcode, senderPlace } = last;
  const sendBy = day(last.expiresAt);
  return {
    number,
    state,
    sendBy,
    sentOn: last.sentAt && day(last.sentAt),
    receivedOn: last.receivedAt && day(last.receivedAt),
    carrier: last.carrier,
    trackingNumber: last.trackingNumber,
    ...returnInstructions({ number, sendBy, pairUnit: claim.pairUnit, seller }, sayIn(actor.language)),
    sender: { name: senderName ?? claim.contactName ?? "", street: senderStreet ?? "", postcode: senderPostcode ?? "", place: senderPlace ?? "" },
    label: senderName && senderStreet ? { number, url: `${env.APP_ORIGIN}${scanPath(number)}`, to: postalAddress(seller), from: [senderName, senderStreet, `${senderPostcode} ${senderPlace}`] } : null,
  };
}
