import { isAskable } from "./asked-when";
import { beliefIn, unitCausesOf } from "./belief";
import { type ClaimNetwork, claimNetwork } from "./claim-network";
import { type ClaimContext, NO_CONTEXT } from "./experience";
import { indexedEdition } from "./indexed-edition";
import { inferCauses, logEvidenceOf } from "./infer-causes";
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

/** What would be known after one outcome of a check; `weight` is its joint probability with the evidence. */
interface Outcome {
  /** As observed; a measurement's hidden sign counts as "present" or "absent". */
  answer: string;
  weight: number;
  unitDefective: number;
  causes: readonly number[];
}

interface Question {
  unitCauses: ReadonlySet<number>;
  /** Log evidence before the check, so that weights do not underflow. */
  logScale: number;
}

function outcomeOf(claim: ClaimNetwork, answer: string, share: number, { unitCauses, logScale }: Question): Outcome | null {
  const posterior = inferCauses(claim.network, claim.evidence);
  if (posterior.outcome === "contradiction") return null;
  const logUnitSound = logEvidenceOf(claim.network, claim.evidence, unitCauses);
  return {
    answer,
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
    answer: { kind: "evidence", definition, observer, shown: on ? "present" : "absent", weightOn: on, weightOff: 1 - on },
    share: 1,
  }));
}

/**
 * What a check is worth: how far it is expected to lower the cost of deciding, what it is expected to tell about the
 * leading causes (mutual information, one cause at a time, in bits), and what would be believed after each outcome.
 * Neither figure is negative.
 */
function worthOfKnowing(outcomes: readonly Outcome[], edition: Edition, stakes: Stakes): Pick<NextCheck, "gain" | "information" | "outcomes"> {
  const total = outcomes.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return { gain: 0, information: 0, outcomes: [] };
  const expected = (read: (outcome: Outcome) => number) =>
    outcomes.reduce((sum, outcome) => sum + (outcome.weight / total) * read(outcome), 0);
  const now = {
    unitDefective: expected(({ unitDefective }) => unitDefective),
    causes: (outcomes[0]?.causes ?? []).map((_, cause) => expected(({ causes }) => causes[cause] ?? 0)),
  };
  const possible = outcomes.map((outcome) => ({ answer: outcome.answer, probability: outcome.weight / total, known: beliefIn(outcome, edition) }));
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

/** Whether nothing is left wet: nobody would have complained, so that such an answer is not expected. */
function leavesAllDry(counted: readonly StandingObservation[], edition: Edition): boolean {
  const dry = new Set(counted.flatMap((one) => (one.kind === "evidence" && one.weightOn === 0 ? [one.definition.code] : [])));
  return indexedEdition(edition).sites.every(({ code }) => dry.has(code));
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
  const claim = claimNetwork(counted, edition, context);
  const logScale = logEvidenceOf(claim.network, claim.evidence);
  if (!Number.isFinite(logScale)) return [];
  const question: Question = { unitCauses: unitCausesOf(edition), logScale };
  const mustStandStill = stopEngineFor(observations, edition) !== null;
  const looked = new Set(observations.map(({ finding }) => finding));

  const checks = edition.findings.flatMap((definition): NextCheck[] => {
    if (looked.has(definition.code) || !definition.observers.includes(observer)) return [];
    if ((definition.runsEngine && mustStandStill) || !isAskable(definition, observations)) return [];
    const beside = countedBeside(definition, observer, counted, edition);
    if (!beside) return [];
    const outcomes = hypotheticalAnswers(definition, observer)
      .filter(({ answer }) => definition.kind !== "site" || !leavesAllDry([...beside, answer], edition))
      .map(({ answer, share }) => outcomeOf(claimNetwork([...beside, answer], edition, context), answer.shown, share, question))
      .filter((outcome) => outcome !== null);
    const { gain, information, outcomes: possible } = worthOfKnowing(outcomes, edition, stakes);
    if (gain < A_CENT && information < NO_INFORMATION) return [];
    const { code, minutes, cost, cautions } = definition;
    return [{ finding: code, observer, gain, information, price: priceOfCheck(definition, observer, stakes), minutes, cost, cautions, outcomes: possible }];
  });
  return checks.sort(bestFirst);
}
