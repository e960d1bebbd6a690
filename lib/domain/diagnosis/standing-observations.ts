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
import type { PhysicalReading } from "./physical-reading";
import { physicalReadings, type StandingReading } from "./physical-readings";

/** An observation that counts, beside its definition. */
export type StandingObservation = StandingCircumstance | StandingEvidence;

export interface StandingCircumstance {
  kind: "circumstance";
  definition: CircumstanceFinding;
  observer: Observer;
  /** The option chosen; also what is shown. */
  shown: string;
}

/** Seen (1, 0), looked at and not there (0, 1), or a reading (ratio, 1); a number that is part of another reading (1, 1). */
export interface StandingEvidence {
  kind: "evidence";
  definition: SignFinding | MeasuredFinding;
  observer: Observer;
  shown: string;
  weightOn: number;
  weightOff: number;
  /** Of a measurement, what it comes to. */
  reading?: PhysicalReading;
}

function standing(definition: FindingDefinition, observation: Observation): StandingObservation {
  const { observer } = observation;
  if (definition.kind === "measurement") {
    const shown = `${"measured" in observation ? observation.measured : ""} ${definition.unit}`;
    return { kind: "evidence", definition, observer, shown, weightOn: 1, weightOff: 1 };
  }
  const shown = "answer" in observation ? observation.answer : "";
  if (definition.kind === "circumstance") return { kind: "circumstance", definition, observer, shown };
  const isThere = shown === "present";
  return { kind: "evidence", definition, observer, shown, weightOn: isThere ? 1 : 0, weightOff: isThere ? 0 : 1 };
}

const standingReading = (reading: StandingReading): StandingEvidence => ({
  kind: "evidence",
  definition: reading.definition,
  observer: reading.observer,
  shown: reading.shown,
  weightOn: reading.ratio,
  weightOff: 1,
  reading,
});

/** The most any cause's odds can be moved by this evidence alone, in natural log: what "strongest of a group" means. */
function strengthOf({ definition, observer, weightOn, weightOff }: StandingEvidence): number {
  const background = definition.background[observer].value;
  const weigh = (chance: number) => weightOn * chance + weightOff * (1 - chance);
  const without = weigh(background);
  const moves = definition.links.map(({ strength }) => {
    const withIt = weigh(1 - (1 - background) * (1 - strength[observer].value));
    // Both are 0 where it is seen that neither this cause nor anything else can show: it moves no odds.
    return withIt === without ? 0 : Math.abs(Math.log(withIt / without));
  });
  return Math.max(0, ...moves);
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

/** Signs and readings that are not counted because another one speaks of the same physical fact. */
function saidBetterByOthers(all: readonly StandingEvidence[], edition: Edition): Set<FindingCode> {
  const setAside = new Set<FindingCode>();
  for (const { definition } of all) {
    if (definition.kind === "measurement") for (const code of definition.replaces) setAside.add(code);
  }
  for (const group of edition.samePhysicalFact) {
    const [, ...weaker] = all
      .filter(({ definition }) => group.includes(definition.code) && !setAside.has(definition.code))
      .map((one) => ({ ...one, strength: strengthOf(one) }))
      // A proof is infinitely strong, and two of them are equally so.
      .sort((a, b) => (a.strength === b.strength ? 0 : b.strength - a.strength));
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
 * customer, the later one on a tie). Of findings that speak of one physical fact only the strongest counts; numbers that
 * make one reading count as one, in place of the yes or no answers it is made of.
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
  const readings = new Map(physicalReadings(chosen, edition).map((reading) => [reading.definition.code, reading]));
  const all = edition.findings.flatMap((definition) => {
    const reading = readings.get(definition.code);
    if (reading) return [standingReading(reading)];
    const observation = chosen.get(definition.code);
    return observation ? [standing(definition, observation)] : [];
  });
  const isPartOfAnother = ({ definition }: StandingObservation) => definition.kind === "measurement" && !readings.has(definition.code);
  const evidence = all.filter((one): one is StandingEvidence => one.kind === "evidence" && !isPartOfAnother(one));
  const better = saidBetterByOthers(evidence, edition);
  const isSetAside = (one: StandingObservation) => isPartOfAnother(one) || better.has(one.definition.code);
  return { counted: all.filter((one) => !isSetAside(one)), setAside: all.filter(isSetAside) };
}
