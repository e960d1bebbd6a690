import type { CauseCode } from "../diagnosis/knowledge";
import type { CalendarDay } from "./calendar-day";

/** From which day a period runs. */
export const PERIOD_STARTS = ["shipment", "fitting"] as const;
export type PeriodStart = (typeof PERIOD_STARTS)[number];

/** Who may fit a unit: anybody, a workshop of the trade, or such a workshop that can show its invoice. */
export const ALLOWED_FITTERS = ["anyone", "workshop", "workshop_with_proof"] as const;
export type AllowedFitter = (typeof ALLOWED_FITTERS)[number];

/** What a warranty may be lost by: a closed list, each tied to the causes that show it. The rest a person has to see. */
export const LOSS_GROUNDS = ["starved_of_oil", "struck_by_object", "housing_turned", "drain_altered", "unit_opened", "boost_raised", "emission_parts_removed"] as const;
export type LossGround = (typeof LOSS_GROUNDS)[number];

export const LOSS_GROUNDS_KNOWN: Readonly<Record<LossGround, { words: string; causes: readonly CauseCode[] }>> = {
  starved_of_oil: { words: "run without oil, or on dirty oil, when it was first started", causes: ["C14"] },
  struck_by_object: { words: "an object or debris let into a wheel", causes: ["C13"] },
  housing_turned: { words: "the bearing housing turned or tilted beyond its limits", causes: ["C05"] },
  drain_altered: { words: "the drain led into the engine elsewhere than drawn", causes: ["C04"] },
  unit_opened: { words: "the unit taken apart", causes: [] },
  boost_raised: { words: "boost or speed raised beyond what the unit is rated for", causes: [] },
  emission_parts_removed: { words: "parts that control emissions removed from the vehicle", causes: [] },
};

/** How long the warranty holds: so many months, or so far, whichever comes first. Null sets no bound. */
export interface WarrantyPeriod {
  from: PeriodStart;
  months: number;
  distanceKm: number | null;
  hours: number | null;
}

/** What a kit has otherwise than the rest; what is null is as for all. */
export interface KitTerms {
  kit: string;
  months: number | null;
  distanceKm: number | null;
  hours: number | null;
  fitter: AllowedFitter | null;
}

/** What to bear in mind for a customer in a country: the law there comes before any term. */
export interface CountryNote {
  country: string;
  note: string;
}

/** One version of the seller's terms, as data. */
export interface TermsDocument {
  period: WarrantyPeriod;
  fitter: AllowedFitter;
  lostBy: readonly LossGround[];
  kits: readonly KitTerms[];
  countries: readonly CountryNote[];
}

export interface WarrantyVersion {
  number: number;
  /** Units shipped on this day or later have them, until the next version. */
  validFrom: CalendarDay;
  document: TermsDocument;
}

/**
 * The terms in force when a unit shipped: of those that began by then the last. Null where none had begun yet.
 *
 * Example: of versions from 2024-01-01 and 2026-07-01, a unit of 2026-06-30 has the first.
 */
export function termsInForceOn<Version extends Pick<WarrantyVersion, "validFrom">>(versions: readonly Version[], shippedOn: CalendarDay): Version | null {
  return versions.filter(({ validFrom }) => validFrom <= shippedOn).reduce<Version | null>((last, version) => (last === null || version.validFrom > last.validFrom ? version : last), null);
}

/** The terms as they hold for one kit. */
export function termsForKit({ period, fitter, kits }: TermsDocument, kit: string | null): { period: WarrantyPeriod; fitter: AllowedFitter; isOwn: boolean } {
  const own = kits.find((one) => one.kit === kit);
  if (!own) return { period, fitter, isOwn: false };
  return {
    period: { from: period.from, months: own.months ?? period.months, distanceKm: own.distanceKm ?? period.distanceKm, hours: own.hours ?? period.hours },
    fitter: own.fitter ?? fitter,
    isOwn: true,
  };
}
