import { crankcaseMargin, ventHoseMargin } from "../physics/crankcase-margins";
import { type Lognormal, lognormal } from "../physics/estimate";
import { METRES_PER } from "../physics/user-units";
import { asLognormal, asNormal, measuredOr, type MeasuredValues } from "./measured-values";
import { type PhysicalReading, readingOf } from "./physical-reading";

/** A fall shorter than this is the drain's fault: the crankcase is not blamed for it (judgement). */
const LEAST_FALL_M = 0.06;

/** The fall that the crankcase takes its share of: as measured, else as usual. */
function fallToShare(values: MeasuredValues): Lognormal {
  const fall = values.of("drain-fall");
  if (!fall) return values.reference("drainFall");
  const shared = Math.max(LEAST_FALL_M, fall.si);
  return lognormal(shared, fall.siSpread / shared);
}

/** Crankcase pressure as a column of oil, against half of the fall. */
export function crankcaseReading(values: MeasuredValues): PhysicalReading | null {
  const pressure = values.of("crankcase-pressure");
  if (!pressure) return null;
  return readingOf(crankcaseMargin(asNormal(pressure), fallToShare(values)), METRES_PER.mm, "mm of oil", ["crankcase-pressure", "drain-fall"]);
}

/** What the vent hose would hold up of a sound engine's blow-by: a worn engine is not held against the hose. */
export function ventHoseReading(values: MeasuredValues): PhysicalReading | null {
  const bore = values.of("vent-bore");
  if (!bore) return null;
  const hose = { boreM: asLognormal(bore), lengthM: measuredOr(values, "vent-length", "ventLength") };
  return readingOf(ventHoseMargin(hose, values.reference("blowBy"), fallToShare(values)), METRES_PER.mm, "mm of oil", ["vent-bore", "vent-length", "drain-fall"]);
}
