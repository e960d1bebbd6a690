import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { updatePairUnit } from "@/lib/data/joined-claims";
import { type ClaimStage, QUEUE_STAGES } from "@/lib/domain/claims/stages";
import type { PairUnitInput } from "@/lib/inputs/joined-claims";
import { auditActor, type Refusal, refuse } from "./refusal";

export type NamePairUnitResult = { ok: true } | Refusal | { ok: false; reason: "not-found" } | { ok: false; reason: "not-legal-here"; stage: ClaimStage } | { ok: false; reason: "refused"; messages: Record<string, string> };

/**
 * Says which unit of a compound pair an open claim is about, the large one, the small one or both, with their serials.
 * Both are one claim: they feed each other oil, so neither can be judged alone.
 */
export async function namePairUnit(actor: StaffActor, claimId: string, { pairUnit, serial, otherSerial }: PairUnitInput): Promise<NamePairUnitResult> {
  const refused = await refuse(actor, "link or merge claims", claimId);
  if (refused) return refused;
  const claim = await findClaimToActOn(claimId);
  if (!claim) return { ok: false, reason: "not-found" };
  if (!QUEUE_STAGES.some((open) => open === claim.stage)) return { ok: false, reason: "not-legal-here", stage: claim.stage };
  if (otherSerial && pairUnit === null) return { ok: false, reason: "refused", messages: { pairUnit: "Say which unit of the pair it is, or leave the second serial empty" } };
  if (otherSerial && otherSerial === serial) return { ok: false, reason: "refused", messages: { otherSerial: "This is the serial of the first unit" } };
  return inTransaction(async (db): Promise<NamePairUnitResult> => {
    const isKept = await updatePairUnit(db, claimId, { pairUnit, serial: serial || null, otherSerial: otherSerial || null });
    if (!isKept) return { ok: false, reason: "not-legal-here", stage: claim.stage };
    await appendAudit(db, { actor: auditActor(actor), action: "name_pair_unit", claimId, detail: { pairUnit } });
    return { ok: true };
  });
}
