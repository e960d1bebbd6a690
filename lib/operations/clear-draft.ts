import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { deleteDraft, findDraft } from "@/lib/data/drafts";
import { removeObject } from "@/lib/files/store";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";

export type ClearDraftResult = { ok: true } | { ok: false; reason: "already-filed" };

/**
 * A check has put it right before anything was filed: the draft goes, with all that was typed and its photos. What stays
 * is one line of the audit trail that names the check and the kit, so that it can be counted, by itself: nobody knows
 * whether a claim would have come of it, so it is no claim, and no return avoided.
 */
export async function clearDraft(actor: CustomerActor, check: FindingCode | null): Promise<ClearDraftResult> {
  const photos = await inTransaction(async (db) => {
    const draft = await findDraft(actor.claimId, db);
    if (!draft) return null;
    const keys = await deleteDraft(db, actor.claimId);
    if (keys) await appendAudit(db, { actor: { kind: "customer" }, action: "clear_draft", detail: { check, kit: draft.purchase.kitId } });
    return keys;
  });
  if (!photos) return { ok: false, reason: "already-filed" };
  for (const key of photos) await Promise.all([removeObject(key), removeObject(`${key}-small`)]);
  return { ok: true };
}
