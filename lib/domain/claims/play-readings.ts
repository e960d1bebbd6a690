import type { FindingCode } from "../diagnosis/knowledge";

/** Play that a sound unit of one turbo model may show, in mm. */
export interface PlayLimits {
  axialPlayMinMm: number;
  axialPlayMaxMm: number;
  /** Of the shaft's middle, through the oil outlet. */
  radialPlayMaxMm: number;
}

export interface PlayReading {
  /** Where it was measured. */
  name: string;
  /** In mm. */
  measured: number;
  /** What a sound unit shows, in words. */
  limit: string;
  standing: "within" | "over" | "under";
}

/**
 * What was measured at the bench against the limits of the unit's own model; findings that have none are left out.
 *
 * Example: F41 of 0.31 mm, on a model that shows 0.04 to 0.09 mm fore and aft, is over.
 */
export function playReadings(findings: readonly { code: FindingCode; measured: number | null }[], { axialPlayMinMm, axialPlayMaxMm, radialPlayMaxMm }: PlayLimits): PlayReading[] {
  const limits: Readonly<Partial<Record<FindingCode, { name: string; min: number; max: number; limit: string }>>> = {
    F41: { name: "fore and aft", min: axialPlayMinMm, max: axialPlayMaxMm, limit: `${axialPlayMinMm} to ${axialPlayMaxMm} mm` },
    F42: { name: "sideways through the oil outlet", min: 0, max: radialPlayMaxMm, limit: `up to ${radialPlayMaxMm} mm` },
  };
  return findings.flatMap(({ code, measured }): PlayReading[] => {
    const own = limits[code];
    if (!own || measured === null) return [];
    return [{ name: own.name, measured, limit: own.limit, standing: measured > own.max ? "over" : measured < own.min ? "under" : "within" }];
  });
}
