import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { moveReturn } from "@/lib/data/move-return";
import { queueMail } from "@/lib/data/outgoing-mail";
import { findOpenReturn } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { transition } from "@/lib/domain/claims/lifecycle";
import type { prolongSchema } from "@/lib/inputs/returns";
import { returnProlongedMail } from "@/lib/mail/return-mails";
import { wordsIn } from "@/lib/messages/words";
import { auditActor, refuse, type Refusal } from "./refusal";
import { returnMailFacts } from "./return-mail-facts";

export type ProlongReturnResult = { ok: true; expiresAt: Date } | Refusal | { ok: false; reason: "not-found" | "not-legal-here" };

/**
 * Gives the customer more time to send the unit, from today on, and tells them. A return that has run out goes on, and its
 * claim waits for the unit again where it is still open.
 */
export async function prolongReturn(actor: StaffActor, claimId: string, { days }: z.output<typeof prolongSchema>, now: Date = new Date()): Promise<ProlongReturnResult> {
  const refused = await refuse(actor, "authorise a return", claimId);
  if (refused) return refused;
  const seller = await loadSettings();
  const expiresAt = new Date(now.getTime() + days * 86_400_000);
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const claim = await findClaimToActOn(claimId, db);
    const open = await findOpenReturn(db, claimId);
    if (!claim || !open) return { ok: false, reason: "not-found" };
    const isWaiting = claim.stage === "awaiting_the_unit";
    if (!isWaiting && !transition(claim.stage, "authorise_return").ok) return { ok: false, reason: "not-legal-here" };
    if (!(await moveReturn(db, open.id, "prolong", { expiresAt, remindedAt: null })).ok) return { ok: false, reason: "not-legal-here" };
    const by = { actor: auditActor(actor), detail: { days } };
    await appendAudit(db, { ...by, claimId, action: "prolong_return" });
    if (!isWaiting) await moveClaim(db, claimId, "authorise_return", by);
    if (claim.contactEmail) {
      const facts = await returnMailFacts(db, claim, { number: open.number, expiresAt }, seller, now);
      const to = { name: facts.name, address: claim.contactEmail };
      await queueMail(db, { onceKey: `return-prolonged:${open.number}:${expiresAt.toISOString()}`, claimId, to, ...returnProlongedMail(facts, wordsIn(claim.language)) });
    }
    return { ok: true, expiresAt };
  });
}
