import { crankcaseReading, ventHoseReading } from "./crankcase-readings";
import { drainRunReading, drainWidthReading, headBudgetReading } from "./drain-readings";
import { type Edition, type FindingCode, type MeasuredFinding, OBSERVERS, type Observer } from "./knowledge";
import { type MeasuredValues, measuredValues } from "./measured-values";
import type { Observation } from "./observation";
import { factOf, isComputed, type PhysicalFact } from "./physical-facts";
import type { PhysicalReading } from "./physical-reading";
import { ratioOf } from "./reading-against-limit";
import { attitudeReading, feedReading, filterReading, limitReading, radialPlayReading } from "./unit-readings";

/** A reading beside the finding that it speaks through. */
export interface StandingReading extends PhysicalReading {
  definition: MeasuredFinding;
  observer: Observer;
  /** What is shown of it: the number as it was measured, or what was computed. */
  shown: string;
  /** How many times as likely the reading is where it falls short. */
  ratio: number;
}

const READINGS: Readonly<Partial<Record<PhysicalFact, (values: MeasuredValues) => PhysicalReading | null>>> = {
  "width of the drain": drainWidthReading,
  "run of the drain": drainRunReading,
  "crankcase pressure": crankcaseReading,
  "vent hose": ventHoseReading,
  "size of the filter": filterReading,
  "oil feed": feedReading,
  attitude: attitudeReading,
  "radial play": radialPlayReading,
  "head budget": headBudgetReading,
};

/** The reading of a fact by physics, else of the number against its limit. */
function read(definition: MeasuredFinding, values: MeasuredValues): PhysicalReading | null {
  const fact = factOf(definition.quantity);
  const byPhysics = fact && READINGS[fact];
  if (byPhysics) return byPhysics(values);
  const value = values.from(definition.code);
  return value && definition.limit ? limitReading(value, definition.limit) : null;
}

/** A computed reading is worth what the least authoritative of those who measured is. */
function leastAuthoritative(reading: PhysicalReading, values: MeasuredValues): Observer {
  const observers = reading.from.flatMap((quantity) => values.of(quantity)?.observer ?? []);
  return OBSERVERS.find((observer) => observers.includes(observer)) ?? "customer";
}

/**
 * Measurements as physics reads them: one reading for each physical fact that can be told, in the edition's order. Of
 * several numbers that tell one fact the first speaks for all; a computed reading has a finding that nobody is asked.
 *
 * Each fact is judged by itself, with the others as the edition assumes them, so that the blame falls where it belongs:
 * a level run is not held against the bore.
 *
 * Example: a bore of 12 mm, good to 0.6, tells that the drain is too narrow 2.1 times as likely as that it is not.
 *
 * @param chosen one observation a finding
 */
export function physicalReadings(chosen: ReadonlyMap<FindingCode, Observation>, edition: Edition): StandingReading[] {
  const values = measuredValues(chosen, edition);
  const told = new Set<PhysicalFact>();
  return edition.findings.flatMap((definition): StandingReading[] => {
    if (definition.kind !== "measurement" || definition.links.length === 0) return [];
    const observation = chosen.get(definition.code);
    if (!observation && !isComputed(definition.quantity)) return [];
    const fact = factOf(definition.quantity);
    if (fact && told.has(fact)) return [];
    const reading = read(definition, values);
    if (!reading) return [];
    if (fact) told.add(fact);
    const measured = observation && "measured" in observation ? observation.measured : Math.round(reading.margin.margin);
    return [
      {
        ...reading,
        definition,
        observer: observation?.observer ?? leastAuthoritative(reading, values),
        shown: `${measured} ${definition.unit}`,
        ratio: ratioOf(reading.fallingShort, reading.before),
      },
    ];
  });
}
