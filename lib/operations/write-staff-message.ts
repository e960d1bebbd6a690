import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn, markFirstAnswer } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { insertStaffMessage, isPostedAgain } from "@/lib/data/messages";
import { queueMail } from "@/lib/data/outgoing-mail";
import { loadSettings } from "@/lib/data/settings";
import { openGaps } from "@/lib/domain/claims/message-templates";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { STAFF_MESSAGE_FIELDS } from "@/lib/inputs/staff-message";
import { staffMessageMail } from "@/lib/mail/desk-mails";
import { toStaff, wordsIn } from "@/lib/messages/words";
import { newClaimLink } from "./claim-links";
import { auditActor, type Refusal, refuse } from "./refusal";
import { takeInPassing } from "./take-in-passing";

export type WriteStaffMessageResult = { ok: true } | Refusal | { ok: false; reason: "not-found" } | { ok: false; reason: "refused"; messages: Record<string, string> };

/** Writes to the customer, on their page and by mail. The same words posted again are one message and one mail. */
export async function writeStaffMessage(actor: StaffActor, claimId: string, form: FormData, now: Date = new Date()): Promise<WriteStaffMessageResult> {
  const refused = await refuse(actor, "write a message", claimId);
  if (refused) return refused;
  const parsed = screenSchema(STAFF_MESSAGE_FIELDS, toStaff).safeParse(typedValues(STAFF_MESSAGE_FIELDS, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const gaps = openGaps(parsed.data.body ?? "");
  if (gaps.length > 0) return { ok: false, reason: "refused", messages: { body: `Fill this in before it goes out, or take it out: ${gaps.map((gap) => `{${gap}}`).join(", ")}` } };
  const [claim, seller] = await Promise.all([findClaimToActOn(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  const body = parsed.data.body ?? "";
  const to = { name: claim.contactName ?? "", address: claim.contactEmail ?? "" };
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    if (await isPostedAgain(db, { claimId, from: "staff", body }, now)) return { ok: true };
    const { id } = await insertStaffMessage(db, { claimId, personId: actor.personId, body });
    await markFirstAnswer(db, claimId, now);
    await appendAudit(db, { actor: auditActor(actor), action: "write_message", claimId });
    await takeInPassing(db, actor, claimId);
    const mail = staffMessageMail({ name: to.name, reference: claim.reference, link: await newClaimLink(db, claim, now), seller, body }, wordsIn(claim.language));
    await queueMail(db, { onceKey: `message:${id}`, claimId, to, ...mail });
    return { ok: true };
  });
}
