import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { updateLanguage } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { findDraft } from "@/lib/data/drafts";
import type { Language } from "@/lib/domain/claims/languages";

/** The customer reads and writes another language from now on: the page, mails and the letter follow. */
export async function changeLanguage(actor: CustomerActor, language: Language): Promise<void> {
  await inTransaction(async (db) => {
    if (!(await updateLanguage(db, actor.claimId, language))) return;
    // A draft may still run out and be removed; the audit trail keeps what it names for good.
    if (await findDraft(actor.claimId, db)) return;
    await appendAudit(db, { actor: { kind: "customer" }, action: "change_language", claimId: actor.claimId, detail: { language } });
  });
}
