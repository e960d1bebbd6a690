import type { FindingCode } from "../diagnosis/knowledge";

/** Play that a sound unit of one turbo model may show, in mm. */
export interface PlayLimits {
  axialPlayMinMm: number;
  axialPlayMaxMm: number;
  /** Of the shaft's middle, through the oil outlet. */
  radialPlayMaxMm: number;
}

/** What a reading may be; without a lower end anything down to nothing is sound. */
export interface PlayRange {
  min: number;
  max: number;
}

export interface PlacedReading {
  standing: "within" | "over" | "under";
  /** How far beyond the nearer limit, in mm; nothing within. */
  beyondMm: number;
  /** Whether the gauge is good enough to tell: two of its standard deviations or more from every limit. */
  isClear: boolean;
}

/**
 * A reading of play against its range, and whether the gauge can tell on which side it lies.
 *
 * Source: common practice of reporting a measurement at two standard deviations. Example: 0.31 mm, good to 0.01, against
 * 0.03 to 0.09 mm is over by 0.22 and clear of it; 0.10 mm is over by 0.01 and not clear.
 *
 * @param spreadMm one standard deviation of the gauge
 */
export function placeReading(measuredMm: number, { min, max }: PlayRange, spreadMm: number): PlacedReading {
  const standing = measuredMm > max ? "over" : measuredMm < min ? "under" : "within";
  const nearest = Math.min(Math.abs(measuredMm - max), min > 0 ? Math.abs(measuredMm - min) : Number.POSITIVE_INFINITY);
  return { standing, beyondMm: standing === "over" ? measuredMm - max : standing === "under" ? min - measuredMm : 0, isClear: nearest >= 2 * spreadMm };
}

/** The range of a finding on one turbo model; null for one that the model has no limit for. */
export function playRange(code: FindingCode, { axialPlayMinMm, axialPlayMaxMm, radialPlayMaxMm }: PlayLimits): PlayRange | null {
  if (code === "F41") return { min: axialPlayMinMm, max: axialPlayMaxMm };
  return code === "F42" ? { min: 0, max: radialPlayMaxMm } : null;
}

/** @example rangeInWords({ min: 0, max: 0.15 }) // "up to 0.15 mm" */
export const rangeInWords = ({ min, max }: PlayRange): string => (min > 0 ? `${min} to ${max} mm` : `up to ${max} mm`);

export interface PlayReading {
  /** Where it was measured. */
  name: string;
  /** In mm. */
  measured: number;
  /** What a sound unit shows, in words. */
  limit: string;
  standing: PlacedReading["standing"];
}

const PLACES: Readonly<Partial<Record<FindingCode, string>>> = { F41: "fore and aft", F42: "sideways through the oil outlet" };

/**
 * What was measured at the bench against the limits of the unit's own model; findings that have none are left out.
 *
 * Example: F41 of 0.31 mm, on a model that shows 0.04 to 0.09 mm fore and aft, is over.
 */
export function playReadings(findings: readonly { code: FindingCode; measured: number | null }[], limits: PlayLimits): PlayReading[] {
  return findings.flatMap(({ code, measured }): PlayReading[] => {
    const [range, name] = [playRange(code, limits), PLACES[code]];
    if (!range || !name || measured === null) return [];
    return [{ name, measured, limit: rangeInWords(range), standing: placeReading(measured, range, 0).standing }];
  });
}
