import { lognormal, type Lognormal, normal, type Normal } from "./estimate";
import { type Margin, marginOf } from "./margin";
import { headOfOilM } from "./oil-head";
import { propagate } from "./propagate";
import { HOSE_FITTINGS, HOSE_RELATIVE_ROUGHNESS, ventLossPa } from "./vent-hose";
import { kelvinFromCelsius } from "./user-units";
import { SEA_LEVEL_PRESSURE_PA } from "./air";

/** Of its fall a drain can spare about half: with 0.8 of it taken little drains, with 0.2 there is no harm (judgement). */
const SHARE_TO_SPARE = lognormal(0.5, 0.45);

const SOURCE = "hydrostatics: pressure as a column of oil against half of the drain's fall";

/** The part of the fall that the crankcase may take, as a column of oil. */
function headToSpare({ median, logSpread }: Lognormal): Lognormal {
  return lognormal(median * SHARE_TO_SPARE.median, Math.hypot(logSpread, SHARE_TO_SPARE.logSpread));
}

/**
 * Crankcase pressure as a share of the drain's fall, m of oil.
 * Example: 0.45 kPa are 54 mm; of a fall of 120 mm, 60 mm can be spared.
 */
export function crankcaseMargin(pressurePa: Normal, fallM: Lognormal): Margin {
  return marginOf(headToSpare(fallM), normal(headOfOilM(pressurePa.mean), headOfOilM(pressurePa.spread)), "needed", SOURCE);
}

/** Crankcase gas at the vent: warm, leaving to open air or a pipe near it. */
const GAS = { temperatureK: kelvinFromCelsius(70), outletPressurePa: SEA_LEVEL_PRESSURE_PA };

/**
 * What the vent hose holds back of an engine's blow-by, m of oil, against the same half of the fall.
 *
 * Example: 100 l/min through 1.5 m of 8 mm hose hold up 460 mm of oil, through 16 mm 20 mm.
 */
export function ventHoseMargin(hose: { boreM: Lognormal; lengthM: Lognormal }, blowByM3S: Lognormal, fallM: Lognormal): Margin {
  const heldUp = propagate(
    (boreM, lengthM, flowM3S) =>
      headOfOilM(ventLossPa({ flowM3S, boreM, lengthM, roughnessM: HOSE_RELATIVE_ROUGHNESS * boreM, fittings: HOSE_FITTINGS }, GAS)),
    [hose.boreM, hose.lengthM, blowByM3S],
  );
  return marginOf(headToSpare(fallM), heldUp, "needed", `isothermal flow with Churchill's friction (1977) for air; ${SOURCE}`);
}
