import type { Edition } from "./knowledge";

/** Made once for an edition: what is worked out from it is then worked out once too. */
const forPetrol = new WeakMap<Edition, Edition>();

/**
 * An edition as it holds for an engine: one that burns petrol does not run away on oil, so that neither the rule that
 * stops it nor the caution applies. A fuel nobody knows counts as diesel.
 */
export function editionForFuel(edition: Edition, fuel: string | null | undefined): Edition {
  if (fuel !== "petrol") return edition;
  const made = forPetrol.get(edition);
  if (made) return made;
  const petrol: Edition = {
    ...edition,
    stopRules: edition.stopRules.filter(({ reason }) => reason !== "oil-in-intake-can-run-away"),
    findings: edition.findings.map((finding) => ({ ...finding, cautions: finding.cautions.filter((code) => code !== "S1") })),
  };
  forPetrol.set(edition, petrol);
  return petrol;
}
