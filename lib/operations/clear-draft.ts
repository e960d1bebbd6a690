import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { deleteDrafts, findDraft } from "@/lib/data/drafts";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";

export type ClearDraftResult = { ok: true } | { ok: false; reason: "already-filed" };

/**
 * A check has put it right before anything was filed: the draft goes, with all that was typed and its photos. What stays
 * is one line of the audit trail that names the check and the kit, so that it can be counted, by itself: nobody knows
 * whether a claim would have come of it, so it is no claim, and no return avoided.
 */
export async function clearDraft(actor: CustomerActor, check: FindingCode | null): Promise<ClearDraftResult> {
  return inTransaction(async (db) => {
    const draft = await findDraft(actor.claimId, db);
    if (!draft || (await deleteDrafts(db, [draft.id])) === 0) return { ok: false, reason: "already-filed" };
    await appendAudit(db, { actor: { kind: "customer" }, action: "clear_draft", detail: { check, kit: draft.purchase.kitId } });
    return { ok: true };
  });
}
