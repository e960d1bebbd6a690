import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findPerson, isAnotherAdministrator, updatePerson } from "@/lib/data/people";
import { deleteSessionsOf } from "@/lib/data/staff-sessions";
import type { Role } from "@/lib/domain/claims/roles";
import { auditActor, refuse, type Refusal } from "./refusal";

export type ChangeRoleResult = { ok: true } | Refusal | { ok: false; reason: "unknown-person" | "yourself" | "last-administrator" };

/** Gives a person another role; they sign in again with it. Nobody changes their own. */
export async function changeRole(actor: StaffActor, personId: string, role: Role): Promise<ChangeRoleResult> {
  const refused = await refuse(actor, "manage people");
  if (refused) return refused;
  if (personId === actor.personId) return { ok: false, reason: "yourself" };
  return inTransaction(async (db) => {
    const isOneLeft = await isAnotherAdministrator(db, personId);
    const person = await findPerson(db, personId);
    if (!person) return { ok: false, reason: "unknown-person" };
    if (person.role === role) return { ok: true };
    if (person.role === "admin" && !isOneLeft) return { ok: false, reason: "last-administrator" };
    await updatePerson(db, personId, { role });
    await deleteSessionsOf(db, personId);
    await appendAudit(db, { actor: auditActor(actor), action: "change_role", detail: { personId, from: person.role, to: role } });
    return { ok: true };
  });
}
