import { isAskable } from "./asked-when";
import { beliefIn } from "./belief";
import { type BeforeCheck, beforeCheck, type CheckOutcome, outcomesOfCheck } from "./check-outcomes";
import { type ClaimContext, NO_CONTEXT } from "./experience";
import { CHECK_COSTS, type Edition, type FindingDefinition, type Observer } from "./knowledge";
import type { Observation } from "./observation";
import type { NextCheck } from "./ranking";
import { decide, priceOfCheck, type Stakes } from "./stakes";
import { type StandingObservation, standingObservations } from "./standing-observations";
import { stopEngineFor } from "./stop-engine";
import { entropyBits, valueOfInformation } from "./value-of-information";

const LEADING_CAUSES = 3;
/** Gains are compared to the cent; information below this is none. */
const A_CENT = 0.01;
const NO_INFORMATION = 1e-6;

/**
 * What a check is worth: how far it is expected to lower the cost of deciding, what it is expected to tell about the
 * leading causes (mutual information, one cause at a time, in bits), and what would be believed after each outcome.
 * Neither figure is negative.
 */
function worthOfKnowing(outcomes: readonly CheckOutcome[], logScale: number, edition: Edition, stakes: Stakes): Pick<NextCheck, "gain" | "information" | "outcomes"> {
  const weights = outcomes.map(({ share, logEvidence }) => share * Math.exp(logEvidence - logScale));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (!(total > 0)) return { gain: 0, information: 0, outcomes: [] };
  const probabilities = weights.map((weight) => weight / total);
  const expected = (read: (outcome: CheckOutcome) => number) => outcomes.reduce((sum, outcome, place) => sum + (probabilities[place] ?? 0) * read(outcome), 0);
  const now = {
    unitDefective: expected(({ unitDefective }) => unitDefective),
    causes: (outcomes[0]?.causes ?? []).map((_, cause) => expected(({ causes }) => causes[cause] ?? 0)),
  };
  const possible = outcomes.map((outcome, place) => ({ answer: outcome.answer, probability: probabilities[place] ?? 0, known: beliefIn(outcome, edition) }));
  const gain = valueOfInformation(possible, beliefIn(now, edition), (belief) => decide(belief, stakes).cost);

  const leading = [...now.causes.keys()].sort((a, b) => (now.causes[b] ?? 0) - (now.causes[a] ?? 0)).slice(0, LEADING_CAUSES);
  const information = leading.reduce(
    (sum, cause) => sum + entropyBits(now.causes[cause] ?? 0) - expected(({ causes }) => entropyBits(causes[cause] ?? 0)),
    0,
  );
  return { gain, information: Math.max(0, information), outcomes: possible };
}

/** How surely a finding shows the cause that it shows best: the most an answer to it can rule out. */
function telling(definition: FindingDefinition, observer: Observer): number {
  if (definition.kind === "circumstance") return 0;
  return Math.max(0, ...definition.links.map(({ strength }) => strength[observer].value));
}

/**
 * What is counted beside the answer to a check: all but the weaker findings of the same physical fact. Null when the
 * fact is already told at least as well.
 */
function countedBeside(
  definition: FindingDefinition,
  observer: Observer,
  counted: readonly StandingObservation[],
  edition: Edition,
): StandingObservation[] | null {
  const fellows = edition.samePhysicalFact.filter((group) => group.includes(definition.code)).flat();
  const same = counted.filter((one) => fellows.includes(one.definition.code));
  const isToldAsWell = same.some((one) => telling(one.definition, one.observer) >= telling(definition, observer));
  return isToldAsWell ? null : counted.filter((one) => !same.includes(one));
}

/** Sorts by numbers, larger first; the first that differs decides. */
function byKeys(keysOf: (check: NextCheck) => readonly number[]) {
  return (a: NextCheck, b: NextCheck): number => {
    const [left, right] = [keysOf(a), keysOf(b)];
    const decisive = left.findIndex((key, place) => key !== right[place]);
    return decisive < 0 ? 0 : (right[decisive] ?? 0) - (left[decisive] ?? 0);
  };
}

/** Larger net value first, to the cent; then more information for the price; free before paid, safe before risky. */
const bestFirst = byKeys((check) => [
  Math.round(Math.max(0, check.gain - check.price) / A_CENT),
  Math.round(check.information / check.price / NO_INFORMATION),
  -CHECK_COSTS.indexOf(check.cost),
  -check.cautions.length,
  -check.minutes,
]);

/**
 * Next checks: what this observer could still find out, best first. The value of a check is what it is expected to
 * save by a better decision (treat the unit as defective, or as sound with advice on a cause) less its price; what is
 * not worth its price is ordered by what it tells about the three leading causes for it.
 *
 * No check that runs the engine is named while the engine must stand still.
 *
 * Source: Raiffa and Schlaifer (1961), expected value of sample information, from memory. Checks that cannot change
 * anything are left out. Example: with oil on the turbine side and nothing else known, a customer is asked first
 * whether the drain falls all the way.
 */
export function nextChecks(
  observations: readonly Observation[],
  edition: Edition,
  { observer, stakes, context = NO_CONTEXT }: { observer: Observer; stakes: Stakes; context?: ClaimContext },
): NextCheck[] {
  const { counted } = standingObservations(observations, edition);
  const before = beforeCheck(counted, edition, context);
  if (!before) return [];
  // By the findings that give way to the one that is checked: mostly none.
  const others = new Map<string, BeforeCheck | null>();
  const beforeWith = (beside: readonly StandingObservation[]): BeforeCheck | null => {
    if (beside.length === counted.length) return before;
    const key = beside.map(({ definition }) => definition.code).join(" ");
    if (!others.has(key)) others.set(key, beforeCheck(beside, edition, context));
    return others.get(key) ?? null;
  };
  const mustStandStill = stopEngineFor(observations, edition) !== null;
  const looked = new Set(observations.map(({ finding }) => finding));

  const checks = edition.findings.flatMap((definition): NextCheck[] => {
    if (looked.has(definition.code) || !definition.observers.includes(observer)) return [];
    if ((definition.runsEngine && mustStandStill) || !isAskable(definition, observations)) return [];
    const beside = countedBeside(definition, observer, counted, edition);
    const known = beside && beforeWith(beside);
    if (!known) return [];
    const { gain, information, outcomes } = worthOfKnowing(outcomesOfCheck(definition, observer, known), before.known.logEvidence, edition, stakes);
    if (gain < A_CENT && information < NO_INFORMATION) return [];
    const { code, minutes, cost, cautions } = definition;
    return [{ finding: code, observer, gain, information, price: priceOfCheck(definition, observer, stakes), minutes, cost, cautions, outcomes }];
  });
  return checks.sort(bestFirst);
}
