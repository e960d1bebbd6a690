import type { Attribution } from "../diagnosis/attributions";
import type { Ranking } from "../diagnosis/ranking";
import { REMEDIES, type Remedy } from "./remedies";

/** What each remedy costs the seller, in units of the currency (the seller's settings; a turbo model may say its own). */
export interface RemedyPrices {
  /** Another unit, as the seller gets it. */
  unit: number;
  /** What the customer paid for one. */
  unitPrice: number;
  repair: number;
  part: number;
  /** One way. */
  carriage: number;
  goodwill: number;
}

/** What it costs when a remedy does not put it right. */
export interface RemedyStakes {
  /** The customer writes again: another round of looking, writing and taking apart. */
  repeatContact: number;
  /** A defective unit was taken for a sound one. */
  missedDefect: number;
}

export interface RemedyCost {
  remedy: Remedy;
  /** The remedy itself. */
  itself: number;
  /** Chance that it does not put it right, and what then follows is expected to cost. */
  chanceItFails: number;
  thenExpected: number;
  expected: number;
}

/**
 * What each remedy is expected to cost, the least first: the remedy itself, and by the ranking what follows where it does
 * not put it right. Advice mends the leading cause where no part of the seller's is needed, a part sent mends it where it
 * is the kit's too; repair, replacement and refund end it where the unit is defective. Where the unit is defective and
 * stays on the vehicle, a missed defect follows; else the customer writes again. A refund ends the matter either way, and
 * declining leaves open what advice would have left open, with what was the seller's to mend.
 *
 * Source: expected loss of a decision (Raiffa and Schlaifer 1961, from memory); which remedy mends what is judgement.
 * Example: a unit defective with 5 %, a level drain of the fitter's with 80 %, stakes 150 and 600: advice costs nothing
 * itself, and 0.05 * 600 + 0.15 * 150 = 52.50 is to be expected.
 */
export function expectedRemedyCosts(ranking: Ranking | null, prices: RemedyPrices, stakes: RemedyStakes): RemedyCost[] {
  if (ranking?.outcome !== "ranked") return [];
  const { unitDefective, attributions } = ranking;
  const leader = ranking.causes.find(({ attribution }) => attribution !== "unit" && attribution !== "transit");
  const soundAndMended = Math.min(leader?.probability ?? 0, 1 - unitDefective);
  const withoutPart = leader?.attribution === "kit" ? 0 : soundAndMended;
  const ours = Math.max(unitDefective, attributions.kit, attributions.transit);

  const costs = REMEDIES.map((remedy): RemedyCost => {
    const itself = priceOf(remedy, prices);
    const [mended, missed] = outcome(remedy);
    const chanceItFails = Math.max(0, 1 - mended);
    const thenExpected = missed * stakes.missedDefect + Math.max(0, chanceItFails - missed) * stakes.repeatContact;
    return { remedy, itself, chanceItFails, thenExpected, expected: itself + thenExpected };
  });
  return costs.sort((a, b) => a.expected - b.expected || REMEDIES.indexOf(a.remedy) - REMEDIES.indexOf(b.remedy));

  /** Chance that the remedy mends it, and that a defect is missed. */
  function outcome(remedy: Remedy): [mended: number, missed: number] {
    if (remedy === "refund") return [1, 0];
    if (remedy === "repair" || remedy === "replacement") return [Math.max(unitDefective, attributions.transit), 0];
    if (remedy === "part_sent") return [soundAndMended, unitDefective];
    return remedy === "declined" ? [Math.max(0, withoutPart - ours), ours] : [withoutPart, unitDefective];
  }
}

/** A remedy by itself, with the carriage it takes. Example: at 650 for a unit and 20 each way a replacement is 690. */
export function priceOf(remedy: Remedy, { unit, unitPrice, repair, part, carriage, goodwill }: RemedyPrices): number {
  const prices: Readonly<Record<Remedy, number>> = { advice: 0, part_sent: part + carriage, repair: repair + 2 * carriage, replacement: unit + 2 * carriage, refund: unitPrice + carriage, goodwill, declined: 0 };
  return prices[remedy];
}

const FITTING: Readonly<Record<Attribution, readonly Remedy[]>> = {
  fit: ["advice"],
  kit: ["part_sent", "refund"],
  engine: ["advice"],
  unit: ["repair", "replacement", "refund"],
  normal: ["advice"],
  transit: ["replacement", "refund"],
  elsewhere: ["advice"],
};

/**
 * The remedy a ranking speaks for: of those that fit what its leader lies with, the one expected to cost least. It never
 * proposes to decline, nor a courtesy: those are a person's to decide.
 */
export function proposeRemedy(ranking: Ranking | null, costs: readonly RemedyCost[]): Remedy | null {
  const leader = ranking?.outcome === "ranked" ? ranking.causes[0] : undefined;
  return (leader && costs.find(({ remedy }) => FITTING[leader.attribution].includes(remedy))?.remedy) ?? null;
}
