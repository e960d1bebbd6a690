import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { insertDeskNote } from "@/lib/data/desk-notes";
import { lockClaim } from "@/lib/data/lock-claim";
import { DESK_NOTE_FIELDS } from "@/lib/inputs/desk-note";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { toStaff } from "@/lib/messages/words";
import { auditActor, type Refusal, refuse } from "./refusal";

export type WriteDeskNoteResult = { ok: true } | Refusal | { ok: false; reason: "not-found" } | { ok: false; reason: "refused"; messages: Record<string, string> };

/** Keeps a note of the desk for itself. It reaches no customer, moves nothing, and answers nothing. */
export async function writeDeskNote(actor: StaffActor, claimId: string, form: FormData, now: Date = new Date()): Promise<WriteDeskNoteResult> {
  const refused = await refuse(actor, "read and write notes", claimId);
  if (refused) return refused;
  const parsed = screenSchema(DESK_NOTE_FIELDS, toStaff).safeParse(typedValues(DESK_NOTE_FIELDS, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  if (!(await findClaimToActOn(claimId))) return { ok: false, reason: "not-found" };
  const note = { claimId, personId: actor.personId, body: parsed.data.deskNote ?? "" };
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    if (await insertDeskNote(db, note, now)) await appendAudit(db, { actor: auditActor(actor), action: "write_note", claimId });
    return { ok: true };
  });
}
