import { addMonths, type CalendarDay, dayInWords } from "./calendar-day";
import { LOSS_GROUNDS_KNOWN, type LossGround, termsForKit, termsInForceOn, type WarrantyVersion } from "./terms";

/** What is known of a claim that the terms ask about. Null is not known. */
export interface WarrantyFacts {
  filedOn: CalendarDay;
  shippedOn: CalendarDay | null;
  fittedOn: CalendarDay | null;
  /** Since it was fitted. */
  distanceKm: number | null;
  hoursRun: number | null;
  fittedBy: "owner" | "workshop" | null;
  kit: string | null;
  country: string | null;
  /** Grounds that a verdict found, and those that a ranking holds for likely. */
  lossFound: readonly LossGround[];
  lossLikely: readonly LossGround[];
}

export const TERM_STANDINGS = ["inside", "outside", "cannot_tell"] as const;
export type TermStanding = (typeof TERM_STANDINGS)[number];

/** One term held against the facts. */
export interface TermOutcome {
  name: string;
  standing: TermStanding;
  /** Dates, distances, or the fact that is missing. */
  ground: string;
}

export interface WarrantyOutcome {
  standing: TermStanding;
  /** The version that applies; null where the day of shipping is not known, or no terms had begun. */
  terms: number | null;
  each: readonly TermOutcome[];
  /** What to bear in mind in the customer's country. */
  countryNote: string | null;
}

/** Said wherever an outcome is shown. */
export const LAW_COMES_FIRST =
  "What the law gives a consumer comes first. These terms may add to it and never take away from it: where the two differ, the law holds, and outside the terms is not outside the law. In doubt, ask somebody who knows the law of the customer\u2019s country before you decline.";

/**
 * The warranty terms held against what is known of a claim: inside, outside, or not to be told, each term with its
 * ground. One term broken is outside; else one that cannot be told leaves the whole open. It is an account for the
 * person who decides, and nothing follows from it by itself.
 *
 * Source: the seller's own terms; months end as `addMonths` says, and the last day still counts. Example: 24 months from
 * a shipment of 2024-02-29 hold a claim of 2026-02-28, and one of 2026-03-01 no more.
 */
export function warrantyOutcome(versions: readonly WarrantyVersion[], facts: WarrantyFacts): WarrantyOutcome {
  const { shippedOn } = facts;
  if (shippedOn === null) return untold("which terms were in force: the day it was shipped is not known");
  const version = termsInForceOn(versions, shippedOn);
  if (!version) return untold(`no terms had begun by ${dayInWords(shippedOn)}, when it was shipped`);
  const { document } = version;
  const each = [...periodTerms(version, facts, shippedOn), fitterTerm(version, facts), ...document.lostBy.flatMap((ground) => lossTerm(ground, facts) ?? [])];
  return {
    standing: each.some(({ standing }) => standing === "outside") ? "outside" : each.some(({ standing }) => standing === "cannot_tell") ? "cannot_tell" : "inside",
    terms: version.number,
    each,
    countryNote: document.countries.find(({ country }) => country === facts.country)?.note ?? null,
  };
}

const untold = (ground: string): WarrantyOutcome => ({ standing: "cannot_tell", terms: null, each: [{ name: "Terms", standing: "cannot_tell", ground }], countryNote: null });

function periodTerms({ document }: WarrantyVersion, facts: WarrantyFacts, shippedOn: CalendarDay): TermOutcome[] {
  const { period } = termsForKit(document, facts.kit);
  return [
    monthsTerm(period.from === "shipment" ? shippedOn : facts.fittedOn, period, facts, shippedOn),
    ...(period.distanceKm === null ? [] : [usedTerm("Distance", facts.distanceKm, period.distanceKm, "km")]),
    ...(period.hours === null ? [] : [usedTerm("Hours run", facts.hoursRun, period.hours, "h")]),
  ];
}

function monthsTerm(start: CalendarDay | null, { from, months }: { from: "shipment" | "fitting"; months: number }, { filedOn }: WarrantyFacts, shippedOn: CalendarDay): TermOutcome {
  const name = `${months} months from ${from === "shipment" ? "shipment" : "fitting"}`;
  if (start === null) {
    // Nothing is fitted before it is shipped: what is early enough for the shipment is so for any fitting.
    const least = addMonths(shippedOn, months);
    if (filedOn <= least) return { name, standing: "inside", ground: `filed ${dayInWords(filedOn)}; even from shipment it would run until ${dayInWords(least)}` };
    return { name, standing: "cannot_tell", ground: "the day it was fitted is not known" };
  }
  const last = addMonths(start, months);
  return { name, standing: filedOn <= last ? "inside" : "outside", ground: `${from === "shipment" ? "shipped" : "fitted"} ${dayInWords(start)}, so until ${dayInWords(last)}; filed ${dayInWords(filedOn)}` };
}

function usedTerm(what: string, used: number | null, most: number, unit: string): TermOutcome {
  const name = `${what}, ${whole(most)} ${unit} at most`;
  if (used === null) return { name, standing: "cannot_tell", ground: `how much it has run since it was fitted is not known` };
  return { name, standing: used <= most ? "inside" : "outside", ground: `${whole(used)} ${unit} since it was fitted, as told` };
}

function fitterTerm({ document }: WarrantyVersion, { kit, fittedBy }: WarrantyFacts): TermOutcome {
  const { fitter } = termsForKit(document, kit);
  if (fitter === "anyone") return { name: "Fitted by anyone", standing: "inside", ground: "the terms ask for no workshop" };
  const name = fitter === "workshop" ? "Fitted by a workshop" : "Fitted by a workshop, with its invoice";
  if (fittedBy === null) return { name, standing: "cannot_tell", ground: "who fitted it is not known" };
  if (fittedBy === "owner") return { name, standing: "outside", ground: "the owner fitted it, as told" };
  return fitter === "workshop" ? { name, standing: "inside", ground: "a workshop fitted it, as told" } : { name, standing: "cannot_tell", ground: "a workshop fitted it, as told; whether there is an invoice has to be asked" };
}

/** Only what somebody has found, or a ranking holds for likely, speaks against a claim: nobody has to show that a ground is not there. */
function lossTerm(ground: LossGround, { lossFound, lossLikely }: WarrantyFacts): TermOutcome | null {
  const name = `Lost by: ${LOSS_GROUNDS_KNOWN[ground].words}`;
  if (lossFound.includes(ground)) return { name, standing: "outside", ground: "the verdict names it" };
  if (lossLikely.includes(ground)) return { name, standing: "cannot_tell", ground: "the ranking holds it for likelier than not; nobody has confirmed it" };
  return null;
}

const whole = (value: number) => new Intl.NumberFormat("en-GB", { maximumFractionDigits: 0 }).format(value);
