import type { Oil } from "./oil-viscosity";

const oil = (viscosityAt40C: number, viscosityAt100C: number): Oil => ({
  at40C: { temperatureC: 40, viscosityMm2S: viscosityAt40C },
  at100C: { temperatureC: 100, viscosityMm2S: viscosityAt100C },
});

/**
 * Typical engine oils by the grade printed on the can (typical data sheets, from memory): mm2/s at 40 and 100 degC.
 * Example: a 15W-40 has about 109 and 14.5 mm2/s.
 */
export const TYPICAL_OILS = {
  "5w-30": oil(70, 12),
  "5w-40": oil(83, 14),
  "10w-40": oil(95, 14.2),
  "15w-40": oil(109, 14.5),
  "20w-50": oil(165, 18.5),
} as const;
