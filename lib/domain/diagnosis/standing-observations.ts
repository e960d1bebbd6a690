import { checkObservation } from "./check-observation";
import {
  type CircumstanceFinding,
  type Edition,
  type FindingCode,
  type FindingDefinition,
  type MeasuredFinding,
  OBSERVERS,
  type Observer,
  type SignFinding,
} from "./knowledge";
import type { Observation } from "./observation";
import { readingRatio } from "./reading-against-limit";

/** An observation that counts, beside its definition. */
export type StandingObservation = StandingCircumstance | StandingEvidence;

export interface StandingCircumstance {
  kind: "circumstance";
  definition: CircumstanceFinding;
  observer: Observer;
  /** The option chosen; also what is shown. */
  shown: string;
}

/** Seen (1, 0), looked at and not there (0, 1), or a reading (ratio, 1). */
export interface StandingEvidence {
  kind: "evidence";
  definition: SignFinding | MeasuredFinding;
  observer: Observer;
  shown: string;
  weightOn: number;
  weightOff: number;
}

function standing(definition: FindingDefinition, observation: Observation): StandingObservation {
  const { observer } = observation;
  if (definition.kind === "measurement") {
    const measured = "measured" in observation ? observation.measured : Number.NaN;
    const shown = `${measured} ${definition.unit}`;
    return { kind: "evidence", definition, observer, shown, weightOn: readingRatio(measured, definition.limit), weightOff: 1 };
  }
  const shown = "answer" in observation ? observation.answer : "";
  if (definition.kind === "circumstance") return { kind: "circumstance", definition, observer, shown };
  const isThere = shown === "present";
  return { kind: "evidence", definition, observer, shown, weightOn: isThere ? 1 : 0, weightOff: isThere ? 0 : 1 };
}

/** The most any cause's odds can be moved by this evidence alone, in natural log: what "strongest of a group" means. */
function strengthOf({ definition, observer, weightOn, weightOff }: StandingEvidence): number {
  const background = definition.background[observer].value;
  const weigh = (chance: number) => weightOn * chance + weightOff * (1 - chance);
  const ratios = definition.links.map(
    ({ strength }) => weigh(1 - (1 - background) * (1 - strength[observer].value)) / weigh(background),
  );
  return Math.max(0, ...ratios.map((ratio) => Math.abs(Math.log(ratio))));
}

/** Of several observations of one finding the most authoritative observer's counts; the later one on a tie. */
export function oneObservationEach(observations: readonly Observation[]): Map<FindingCode, Observation> {
  const chosen = new Map<FindingCode, Observation>();
  for (const observation of observations) {
    const before = chosen.get(observation.finding);
    const isOutranked = before && OBSERVERS.indexOf(before.observer) > OBSERVERS.indexOf(observation.observer);
    if (!isOutranked) chosen.set(observation.finding, observation);
  }
  return chosen;
}

/** Findings whose evidence is not counted because another one speaks of the same physical fact. */
function saidBetterByOthers(all: readonly StandingEvidence[], edition: Edition): Set<FindingCode> {
  const setAside = new Set<FindingCode>();
  for (const { definition } of all) {
    if (definition.kind === "measurement") for (const code of definition.replaces) setAside.add(code);
  }
  for (const group of edition.samePhysicalFact) {
    const [, ...weaker] = all
      .filter(({ definition }) => group.includes(definition.code) && !setAside.has(definition.code))
      .sort((a, b) => strengthOf(b) - strengthOf(a));
    for (const { definition } of weaker) setAside.add(definition.code);
  }
  return setAside;
}

export interface StandingObservations {
  /** In the fixed order of the edition's findings. */
  counted: readonly StandingObservation[];
  /** Looked at, but the same physical fact is told better by another finding. */
  setAside: readonly StandingObservation[];
}

/**
 * The observations that count, in the edition's fixed order: one per finding (bench before technician before
 * customer, the later one on a tie), and of findings that speak of one physical fact only the strongest, a
 * measurement replacing the yes or no answers it is made of.
 *
 * Throws a RangeError for an observation that does not fit the edition: input is checked with `checkObservation`.
 * Example: a drain said to have many bends (F15) and measured at 19 mm (F13) leaves F13 counted and F15 set aside.
 */
export function standingObservations(observations: readonly Observation[], edition: Edition): StandingObservations {
  for (const observation of observations) {
    const check = checkObservation(observation, edition);
    if (!check.ok) throw new RangeError(`rankCauses cannot use ${observation.finding}: ${check.reason}`);
  }
  const chosen = oneObservationEach(observations);
  const all = edition.findings.flatMap((definition) => {
    const observation = chosen.get(definition.code);
    return observation ? [standing(definition, observation)] : [];
  });
  const setAside = saidBetterByOthers(all.filter((one) => one.kind === "evidence"), edition);
  return {
    counted: all.filter(({ definition }) => !setAside.has(definition.code)),
    setAside: all.filter(({ definition }) => setAside.has(definition.code)),
  };
}
