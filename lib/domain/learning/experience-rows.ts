import type { ExperienceRow } from "../diagnosis/knowledge";
import { betaBinomialFit, LEAST_GROUPS_TO_FIT } from "../statistics/beta-binomial-fit";
import { type Beta, betaAbove } from "../statistics/beta-update";
import { type Counts, pooledBeta } from "../statistics/pooled-beta";
import { baseFromVerdicts, expectedVerdicts, type Learning, round, unitsBehind, weightOfVerdicts } from "./base-figures";
import type { GroupCounts } from "./verdict-counts";

/** With fewer than eight kits to compare, a kit is drawn to all kits by so many verdicts (judgement); a vehicle to its kit likewise. */
const PRIOR_VERDICTS_OF_KIT = 3;
const PRIOR_VERDICTS_OF_CELL = 3;
/** A fit that sees hardly any difference between kits, or nothing else, is kept within these. */
const LEAST_PRIOR_VERDICTS = 1;
const MOST_PRIOR_VERDICTS = 20;

/** A row is worth stating from this ratio, either way, on so many verdicts, seen or expected, and so surely (judgement). */
const WORTH_STATING = 1.5;
const LEAST_VERDICTS = 3;
const LEAST_CERTAINTY = 0.9;
/** Experience shifts the odds of a cause by no more than this. */
const MOST_SHIFT = 6;

const NO_VERDICTS: GroupCounts = { verdicts: 0, weight: 0, named: new Float64Array(), namedWeight: new Float64Array(), shifts: new Float64Array(), others: new Float64Array() };

const meanOf = ({ alpha, beta }: Beta) => alpha / (alpha + beta);
const oddsOf = (chance: number) => chance / (1 - chance);

/**
 * Experience with kits, and with kits on one vehicle: where their verdicts name a cause more or less often than the
 * learned base figure and their circumstances would have it. Partial pooling from all to the kit to the vehicle, each
 * level drawn to the one above by a strength (`pooledBeta`): fitted over the kits where there are eight or more
 * (`betaBinomialFit`), fixed where there are fewer and for vehicles. Only what matters is stated.
 *
 * Trials are expected verdicts, so that a rate of 1 in "expected / rate" units is what all kits have; the ratio of the
 * pooled odds to the odds of all is the figure.
 *
 * Example: a kit with 12 verdicts where 3 were expected, at a strength of 3: (3 + 12) / (3 + 3) = 2.5 times the odds.
 */
export function learnExperience(learning: Learning): ExperienceRow[] {
  const { counts, exposure } = learning;
  const shippedOf = (kit: string, vehicle?: string) =>
    exposure.kits.reduce((sum, one) => sum + (one.kit === kit && (vehicle === undefined || one.vehicle === vehicle) ? one.shipped : 0), 0);
  const kits = [...new Set(exposure.kits.map(({ kit }) => kit))].sort();

  return counts.edition.causes.flatMap(({ code }, place): ExperienceRow[] => {
    // As learned, not as far as one proposal may move it: else every kit would seem to differ from all kits.
    const base = baseFromVerdicts(learning, place).value;
    /** Verdicts as successes among units, both weighted; the units are those that would bring the expected number at the base figure. */
    const tally = (group: GroupCounts, shipped: number) => {
      const units = unitsBehind(shipped, exposure, counts.all.verdicts);
      const expected = expectedVerdicts(base, place, units, group, learning);
      const weight = weightOfVerdicts(group.verdicts > 0 ? group : counts.all, place);
      const observed = group.named[place] ?? 0;
      const pooled: Counts = { successes: weight * observed, trials: Math.max(weight * observed, (weight * expected) / base) };
      return { observed, expected, pooled, units };
    };
    const ofKits = new Map(kits.map((kit) => [kit, tally(counts.byKit.get(kit) ?? NO_VERDICTS, shippedOf(kit))]));
    const strength = strengthBetweenKits([...ofKits.values()].map(({ pooled }) => pooled), base);

    return [...ofKits].flatMap(([kit, ofKit]): ExperienceRow[] => {
      const pooledKit = pooledBeta(base, strength, ofKit.pooled);
      const kitMean = meanOf(pooledKit);
      const rows: ExperienceRow[] = [];
      const state = (vehicle: string | null, pooled: Beta, { observed, expected, units }: typeof ofKit, beside: number) => {
        const ratio = Math.min(MOST_SHIFT, Math.max(1 / MOST_SHIFT, oddsOf(meanOf(pooled)) / oddsOf(base)));
        const differs = Math.max(ratio / beside, beside / ratio);
        const isAbove = betaAbove(pooled, Math.min(0.999, base * beside));
        const isSure = Math.max(isAbove, 1 - isAbove) >= LEAST_CERTAINTY;
        if (differs < WORTH_STATING || Math.max(observed, expected) < LEAST_VERDICTS || !isSure) return beside;
        const hits = Math.round(observed);
        const note = `verdicts naming it ${round(observed)}, expected ${round(expected)} at the base figure`;
        rows.push({ kit, vehicle, cause: code, oddsRatio: { value: ratio, provenance: { kind: "learned", note, counts: { of: Math.max(1, hits, Math.round(units)), hits } } } });
        return ratio;
      };
      const ratioOfKit = state(null, pooledKit, ofKit, 1);
      const vehicles = [...(counts.byCell.get(kit) ?? new Map<string, GroupCounts>())].sort(([a], [b]) => a.localeCompare(b));
      for (const [vehicle, group] of vehicles) {
        const ofCell = tally(group, shippedOf(kit, vehicle));
        state(vehicle, pooledBeta(kitMean, PRIOR_VERDICTS_OF_CELL / kitMean, ofCell.pooled), ofCell, ratioOfKit);
      }
      return rows;
    });
  });
}

/** How strongly kits are drawn to the base figure, in units. */
function strengthBetweenKits(kits: readonly Counts[], base: number): number {
  const withTrials = kits.filter(({ trials }) => trials > 0);
  if (withTrials.length < LEAST_GROUPS_TO_FIT) return PRIOR_VERDICTS_OF_KIT / base;
  const fit = betaBinomialFit(withTrials);
  const verdicts = fit ? (fit.alpha + fit.beta) * base : MOST_PRIOR_VERDICTS;
  return Math.min(MOST_PRIOR_VERDICTS, Math.max(LEAST_PRIOR_VERDICTS, verdicts)) / base;
}
