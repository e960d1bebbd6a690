import { type Lognormal, lognormal, type Normal, normal } from "../physics/estimate";
import { CUBIC_METRES_PER, CUBIC_METRES_PER_SECOND_PER, METRES_PER, PASCALS_PER, RADIANS_PER_DEGREE } from "../physics/user-units";
import type { Edition, FindingCode, MeasuredFinding, MeasuredUnit, Observer, Quantity, ReferenceName, Told } from "./knowledge";
import type { Observation } from "./observation";
import { spreadOf } from "./reading-against-limit";

/** How much of SI one of each stored unit is. */
const SI_PER_UNIT: Readonly<Record<MeasuredUnit, number>> = {
  mm: METRES_PER.mm,
  m: METRES_PER.m,
  deg: RADIANS_PER_DEGREE,
  kPa: PASCALS_PER.kPa,
  bar: PASCALS_PER.bar,
  "l/min": CUBIC_METRES_PER_SECOND_PER["l/min"],
  "m3/h": CUBIC_METRES_PER_SECOND_PER["m3/h"],
  l: CUBIC_METRES_PER.l,
  rpm: 1 / 60,
  elbows: 1,
};

/** A number that was measured, in the unit it is kept in and in SI. */
export interface MeasuredValue {
  definition: MeasuredFinding;
  observer: Observer;
  measured: number;
  spread: number;
  si: number;
  siSpread: number;
}

export interface ToldValue {
  finding: FindingCode;
  observer: Observer;
  answer: string;
}

/** What was measured and told that physics can use, by what it is a measure of, and what the edition assumes of the rest. */
export interface MeasuredValues {
  /** The number of one finding. */
  from: (finding: FindingCode) => MeasuredValue | null;
  /** Of several findings that measure the same, the first in the edition's order. */
  of: (quantity: Quantity) => MeasuredValue | null;
  told: (what: Told) => ToldValue | null;
  reference: (name: ReferenceName) => Lognormal;
}

const TO_SI: Readonly<Record<string, number>> = { ...SI_PER_UNIT, degC: 1, "mm2/s": 1e-6, "": 1 };

/** The standing observations as physics reads them; one observation a finding. */
export function measuredValues(chosen: ReadonlyMap<FindingCode, Observation>, edition: Edition): MeasuredValues {
  const values = new Map<FindingCode, MeasuredValue>();
  const answers = new Map<Told, ToldValue>();
  for (const definition of edition.findings) {
    const observation = chosen.get(definition.code);
    if (!observation) continue;
    const { observer } = observation;
    if (definition.kind === "measurement" && "measured" in observation) {
      const { measured } = observation;
      const spread = Math.max(spreadOf(measured, definition.accuracy[observer]), observation.spread ?? 0);
      const factor = SI_PER_UNIT[definition.unit];
      values.set(definition.code, { definition, observer, measured, spread, si: measured * factor, siSpread: spread * factor });
    } else if (definition.tells && "answer" in observation) {
      answers.set(definition.tells, { finding: definition.code, observer, answer: observation.answer });
    }
  }
  return {
    from: (finding) => values.get(finding) ?? null,
    of: (quantity) => [...values.values()].find(({ definition }) => definition.quantity === quantity) ?? null,
    told: (what) => answers.get(what) ?? null,
    reference: (name) => {
      const { value, spread, unit } = edition.references[name];
      return lognormal(value * (TO_SI[unit] ?? 1), spread);
    },
  };
}

/** A measured number about which errors add. */
export function asNormal({ si, siSpread }: MeasuredValue): Normal {
  return normal(si, siSpread);
}

/** A measured number above 0 about which errors multiply. */
export function asLognormal({ si, siSpread }: MeasuredValue): Lognormal {
  return lognormal(si, siSpread / si);
}

/** Whether a number can be told from 0 at all. */
export function isAboveNothing({ si, siSpread }: MeasuredValue): boolean {
  return si > 2 * siSpread;
}

/** As it was measured, else as the edition assumes. */
export function measuredOr(values: MeasuredValues, quantity: Quantity, name: ReferenceName): Lognormal {
  const value = values.of(quantity);
  return value && isAboveNothing(value) ? asLognormal(value) : values.reference(name);
}
