import { type ClaimNetwork, claimNetwork } from "./claim-network";
import { type ClaimContext, NO_CONTEXT } from "./experience";
import { inferCauses, logEvidenceOf } from "./infer-causes";
import type { CheckCost, Edition, FindingDefinition, Observer } from "./knowledge";
import type { Observation } from "./observation";
import type { NextCheck } from "./ranking";
import { type StandingObservation, standingObservations } from "./standing-observations";
import { stopEngineFor } from "./stop-engine";

/** What a wrong decision costs, in the shop's currency units. */
export interface Stakes {
  /** The unit was treated as defective and is not. */
  needlessReturn: number;
  /** The unit was treated as sound and is defective. */
  missedDefect: number;
}

/** Rough stakes for advice that is given before the shop has said its own (judgement). */
export const USUAL_STAKES: Stakes = { needlessReturn: 150, missedDefect: 600 };

/** What a check costs, middle of its class, in the shop's currency units (judgement). */
const MONEY: Readonly<Record<CheckCost, number>> = { none: 0, low: 10, middle: 80, high: 200 };
/** A unit of currency and each caution weigh as much as so many minutes, where checks are compared by effort. */
const MINUTES_PER_CURRENCY_UNIT = 1;
const MINUTES_PER_CAUTION = 2;

const LEADING_CAUSES = 3;
/** Gains are compared to the cent; information below this is none. */
const A_CENT = 0.01;
const NO_INFORMATION = 1e-6;

/** What would be known after one outcome of a check; `weight` is its joint probability with the evidence. */
interface Outcome {
  weight: number;
  unitDefective: number;
  causes: readonly number[];
}

interface Question {
  unitCauses: ReadonlySet<number>;
  /** Log evidence before the check, so that weights do not underflow. */
  logScale: number;
}

function outcomeOf(claim: ClaimNetwork, share: number, { unitCauses, logScale }: Question): Outcome | null {
  const posterior = inferCauses(claim.network, claim.evidence);
  if (posterior.outcome === "contradiction") return null;
  const logUnitSound = logEvidenceOf(claim.network, claim.evidence, unitCauses);
  return {
    weight: share * Math.exp(posterior.logEvidence - logScale),
    unitDefective: 1 - Math.min(1, Math.exp(logUnitSound - posterior.logEvidence)),
    causes: posterior.present,
  };
}

/**
 * What an answer could be: the options of a circumstance, as common as the edition says (alike where it says
 * nothing); seen or not there for all else. A measurement is taken as a clear reading on either side of its limit.
 */
function hypotheticalAnswers(
  definition: FindingDefinition,
  observer: Observer,
): { answer: StandingObservation; share: number }[] {
  if (definition.kind === "circumstance") {
    return definition.options.map(({ value, share }) => ({
      answer: { kind: "circumstance", definition, observer, shown: value },
      share: share?.value ?? 1 / definition.options.length,
    }));
  }
  return [1, 0].map((on) => ({
    answer: { kind: "evidence", definition, observer, shown: "", weightOn: on, weightOff: 1 - on },
    share: 1,
  }));
}

/** Cost of the better of two actions, treat the unit as defective or not, at this probability of a defect. */
function costOfDeciding(unitDefective: number, { needlessReturn, missedDefect }: Stakes): number {
  return Math.min((1 - unitDefective) * needlessReturn, unitDefective * missedDefect);
}

function entropyBits(probability: number): number {
  if (probability <= 0 || probability >= 1) return 0;
  return -probability * Math.log2(probability) - (1 - probability) * Math.log2(1 - probability);
}

/**
 * Expected value of sample information: how far a check is expected to lower the cost of deciding, and what it is
 * expected to tell about the leading causes (mutual information, one cause at a time, in bits). Neither is negative.
 */
function worthOfKnowing(outcomes: readonly Outcome[], stakes: Stakes): { gain: number; information: number } {
  const total = outcomes.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return { gain: 0, information: 0 };
  const expected = (read: (outcome: Outcome) => number) =>
    outcomes.reduce((sum, outcome) => sum + (outcome.weight / total) * read(outcome), 0);
  const costNow = costOfDeciding(expected(({ unitDefective }) => unitDefective), stakes);
  const costAfter = expected(({ unitDefective }) => costOfDeciding(unitDefective, stakes));

  const now = (outcomes[0]?.causes ?? []).map((_, cause) => expected(({ causes }) => causes[cause] ?? 0));
  const leading = [...now.keys()].sort((a, b) => (now[b] ?? 0) - (now[a] ?? 0)).slice(0, LEADING_CAUSES);
  const information = leading.reduce(
    (sum, cause) => sum + entropyBits(now[cause] ?? 0) - expected(({ causes }) => entropyBits(causes[cause] ?? 0)),
    0,
  );
  return { gain: Math.max(0, costNow - costAfter), information: Math.max(0, information) };
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

/** Minutes, money and cautions of a check as one number of minutes. */
function effortOf({ minutes, cost, cautions }: NextCheck): number {
  return minutes + MONEY[cost] * MINUTES_PER_CURRENCY_UNIT + cautions.length * MINUTES_PER_CAUTION;
}

/** Sorts by numbers, larger first; the first that differs decides. */
function byKeys(keysOf: (check: NextCheck) => readonly number[]) {
  return (a: NextCheck, b: NextCheck): number => {
    const [left, right] = [keysOf(a), keysOf(b)];
    const decisive = left.findIndex((key, place) => key !== right[place]);
    return decisive < 0 ? 0 : (right[decisive] ?? 0) - (left[decisive] ?? 0);
  };
}

/** Larger worth in money first, to the cent; then more information for the effort; free before paid, safe before risky. */
const bestFirst = byKeys((check) => [
  Math.round(Math.max(0, check.gain - MONEY[check.cost]) / A_CENT),
  Math.round(check.information / effortOf(check) / NO_INFORMATION),
  -MONEY[check.cost],
  -check.cautions.length,
  -check.minutes,
]);

/**
 * Next checks: what this observer could still find out, best first. The value of a check is what it is expected to
 * save by a better decision on the unit (treat it as defective or not); most checks change no decision by themselves
 * and are then ordered by what they tell about the three leading causes for the effort.
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
  const claim = claimNetwork(counted, edition, context);
  const logScale = logEvidenceOf(claim.network, claim.evidence);
  if (!Number.isFinite(logScale)) return [];
  const unitCauses = new Set(edition.causes.flatMap(({ attribution }, place) => (attribution === "unit" ? [place] : [])));
  const question: Question = { unitCauses, logScale };
  const mustStandStill = stopEngineFor(observations, edition) !== null;
  const looked = new Set(observations.map(({ finding }) => finding));

  const checks = edition.findings.flatMap((definition): NextCheck[] => {
    if (looked.has(definition.code) || !definition.observers.includes(observer)) return [];
    if (definition.runsEngine && mustStandStill) return [];
    const beside = countedBeside(definition, observer, counted, edition);
    if (!beside) return [];
    const outcomes = hypotheticalAnswers(definition, observer)
      .map(({ answer, share }) => outcomeOf(claimNetwork([...beside, answer], edition, context), share, question))
      .filter((outcome) => outcome !== null);
    const { gain, information } = worthOfKnowing(outcomes, stakes);
    if (gain < A_CENT && information < NO_INFORMATION) return [];
    const { code, minutes, cost, cautions } = definition;
    return [{ finding: code, observer, gain, information, minutes, cost, cautions }];
  });
  return checks.sort(bestFirst);
}
