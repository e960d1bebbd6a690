/**
 * Units people type, as factors into SI: `value * METRES_PER.in` is metres. SI inside, the user's units at the edge only.
 *
 * Sources: the inch is 25.4 mm, the mile 1609.344 m and the pound-force per square inch 6894.757 Pa by definition; an
 * inch of water is 25.4 mm of water at 4 degC, 1000 kg/m3, under standard gravity. Example: 5.5 inH2O is 1370 Pa.
 */
export const METRES_PER = { mm: 0.001, in: 0.0254, m: 1, ft: 0.3048, km: 1000, mi: 1609.344 } as const;

export const PASCALS_PER = { Pa: 1, kPa: 1000, mbar: 100, bar: 100_000, psi: 6894.757293168, inH2O: 249.08891 } as const;

const CUBIC_METRES_PER_CUBIC_FOOT = METRES_PER.ft ** 3;
const CUBIC_METRES_PER_CUBIC_INCH = METRES_PER.in ** 3;

export const CUBIC_METRES_PER = { l: 0.001, "cu in": CUBIC_METRES_PER_CUBIC_INCH } as const;

export const CUBIC_METRES_PER_SECOND_PER = {
  "l/min": 0.001 / 60,
  "m3/h": 1 / 3600,
  "ft3/h": CUBIC_METRES_PER_CUBIC_FOOT / 3600,
  "ft3/min": CUBIC_METRES_PER_CUBIC_FOOT / 60,
} as const;

export const RADIANS_PER_DEGREE = Math.PI / 180;

/** Absolute temperature of a reading in degrees Celsius: 100 degC is 373.15 K. */
export function kelvinFromCelsius(celsius: number): number {
  return celsius + 273.15;
}
