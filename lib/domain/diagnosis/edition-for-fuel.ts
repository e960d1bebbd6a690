import type { Edition } from "./knowledge";

/**
 * An edition as it holds for an engine: one that burns petrol does not run away on oil, so that neither the rule that
 * stops it nor the caution applies. A fuel nobody knows counts as diesel.
 */
export function editionForFuel(edition: Edition, fuel: string | null | undefined): Edition {
  if (fuel !== "petrol") return edition;
  return {
    ...edition,
    stopRules: edition.stopRules.filter(({ reason }) => reason !== "oil-in-intake-can-run-away"),
    findings: edition.findings.map((finding) => ({ ...finding, cautions: finding.cautions.filter((code) => code !== "S1") })),
  };
}
