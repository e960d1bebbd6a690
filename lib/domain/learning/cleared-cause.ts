import type { CauseCode, Edition, FindingCode, Observer } from "../diagnosis/knowledge";

/**
 * Cause of a complaint that a check put right: of the causes that the check shows, the one that most often stands behind
 * it, base figure times link. Nobody has decided such a claim; that the oil stayed away is the confirmation.
 *
 * Example: the drain was found to run level, was re-routed, and it stopped: C01.
 *
 * @returns null where the edition does not know the finding, or it shows no cause
 */
export function causePutRight(finding: FindingCode, observer: Observer, { causes, findings }: Edition): CauseCode | null {
  const definition = findings.find(({ code }) => code === finding);
  if (!definition || definition.kind === "circumstance") return null;
  const shares = definition.links.map(({ cause, strength }) => ({ cause, share: strength[observer].value * (causes.find(({ code }) => code === cause)?.base.value ?? 0) }));
  return shares.sort((a, b) => b.share - a.share)[0]?.cause ?? null;
}
