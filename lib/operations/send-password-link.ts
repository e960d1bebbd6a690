import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findPerson } from "@/lib/data/people";
import { mailPasswordLink } from "./password-links";
import { auditActor, refuse, type Refusal } from "./refusal";

export type SendPasswordLinkResult = { ok: true } | Refusal | { ok: false; reason: "unknown-person" | "disabled" };

/** Mails a person a new link to choose a password; the one before stops working, the password stays until then. */
export async function sendPasswordLink(actor: StaffActor, personId: string, now: Date = new Date()): Promise<SendPasswordLinkResult> {
  const refused = await refuse(actor, "manage people");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const person = await findPerson(db, personId);
    if (!person) return { ok: false, reason: "unknown-person" };
    if (person.disabledAt) return { ok: false, reason: "disabled" };
    await mailPasswordLink(db, person, "new-password", now);
    await appendAudit(db, { actor: auditActor(actor), action: "send_password_link", detail: { personId } });
    return { ok: true };
  });
}
