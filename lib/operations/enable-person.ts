import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findPerson, updatePerson } from "@/lib/data/people";
import { auditActor, refuse, type Refusal } from "./refusal";

export type EnablePersonResult = { ok: true } | Refusal | { ok: false; reason: "unknown-person" };

/** Gives a disabled person their place back, with the password they had. */
export async function enablePerson(actor: StaffActor, personId: string): Promise<EnablePersonResult> {
  const refused = await refuse(actor, "manage people");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const person = await findPerson(db, personId);
    if (!person) return { ok: false, reason: "unknown-person" };
    if (!person.disabledAt) return { ok: true };
    await updatePerson(db, personId, { disabledAt: null });
    await appendAudit(db, { actor: auditActor(actor), action: "enable_person", detail: { personId } });
    return { ok: true };
  });
}
