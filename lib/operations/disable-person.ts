import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { releaseClaimsOf } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { deletePersonKeysOf, findPerson, isAnotherAdministrator, updatePerson } from "@/lib/data/people";
import { deleteSessionsOf } from "@/lib/data/staff-sessions";
import { auditActor, refuse, type Refusal } from "./refusal";

export type DisablePersonResult = { ok: true; released: number } | Refusal | { ok: false; reason: "unknown-person" | "yourself" | "last-administrator" };

/** Takes a person's place away: their sessions end at once, mailed links stop working, and their open claims are anybody's again. What they did stays. */
export async function disablePerson(actor: StaffActor, personId: string, now: Date = new Date()): Promise<DisablePersonResult> {
  const refused = await refuse(actor, "manage people");
  if (refused) return refused;
  if (personId === actor.personId) return { ok: false, reason: "yourself" };
  return inTransaction(async (db) => {
    const isOneLeft = await isAnotherAdministrator(db, personId);
    const person = await findPerson(db, personId);
    if (!person) return { ok: false, reason: "unknown-person" };
    if (person.disabledAt) return { ok: true, released: 0 };
    if (person.role === "admin" && !isOneLeft) return { ok: false, reason: "last-administrator" };
    await updatePerson(db, personId, { disabledAt: now });
    await deleteSessionsOf(db, personId);
    await deletePersonKeysOf(db, personId);
    await appendAudit(db, { actor: auditActor(actor), action: "disable_person", detail: { personId } });
    const released = await releaseClaimsOf(db, personId);
    for (const claimId of released) await appendAudit(db, { actor: auditActor(actor), action: "hand_over", claimId, detail: { to: null } });
    return { ok: true, released: released.length };
  });
}
