import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit, type AuditLine } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { type Db, inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { moveReturn } from "@/lib/data/move-return";
import { queueMail } from "@/lib/data/outgoing-mail";
import { findReturn } from "@/lib/data/returns";
import { loadSettings, type SellerSettings } from "@/lib/data/settings";
import { returnEndedMail } from "@/lib/mail/return-mails";
import { wordsIn } from "@/lib/messages/words";
import { auditActor, refuse, type Refusal } from "./refusal";
import { returnMailFacts } from "./return-mail-facts";

/** Staff stop waiting for a unit that does not come, most often one that got lost on its way. */
export async function giveUpReturn(actor: StaffActor, claimId: string, returnId: string, now: Date = new Date()): Promise<{ ok: true } | Refusal | { ok: false; reason: "not-found" | "not-legal-here" }> {
  const refused = await refuse(actor, "authorise a return", claimId);
  if (refused) return refused;
  const seller = await loadSettings();
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const awaited = await findReturn(db, { id: returnId });
    if (awaited?.claimId !== claimId) return { ok: false, reason: "not-found" };
    return (await endReturn(db, awaited, auditActor(actor), seller, now)) ? { ok: true } : { ok: false, reason: "not-legal-here" };
  });
}

/**
 * The unit is not waited for any more: its claim goes back into review, and the customer is told kindly, since nothing is
 * lost for them. In the transaction of whoever holds the claim.
 *
 * @returns false where the unit is here, or it was ended meanwhile
 */
export async function endReturn(db: Db, awaited: { id: string; claimId: string; number: string; state: string; expiresAt: Date }, actor: AuditLine["actor"], seller: SellerSettings, now: Date): Promise<boolean> {
  if (!(await moveReturn(db, awaited.id, "expire")).ok) return false;
  const { claimId, number, expiresAt } = awaited;
  const claim = await findClaimToActOn(claimId, db);
  // A claim that was decided or taken back meanwhile waits for nothing, and its customer has been told.
  if (claim?.stage !== "awaiting_the_unit") {
    await appendAudit(db, { actor, claimId, action: "return_expired" });
    return true;
  }
  await moveClaim(db, claimId, "return_expired", { actor });
  if (claim.contactEmail) {
    const facts = await returnMailFacts(db, claim, { number, expiresAt }, seller, now);
    await queueMail(db, {
      onceKey: `return-ended:${number}:${expiresAt.toISOString()}`,
      claimId,
      to: { name: facts.name, address: claim.contactEmail },
      ...returnEndedMail({ ...facts, isLost: awaited.state === "in_carriage" }, wordsIn(claim.language)),
    });
  }
  return true;
}
