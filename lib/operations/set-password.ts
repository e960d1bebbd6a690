import "server-only";
import type { z } from "zod";
import { hashPassword } from "@/lib/access/passwords";
import { hashSecret } from "@/lib/access/secrets";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findPersonByKey, spendPersonKey, updatePerson } from "@/lib/data/people";
import { deleteSessionsOf } from "@/lib/data/staff-sessions";
import { newPasswordSchema } from "@/lib/inputs/sign-in";

export type SetPasswordResult =
  | { ok: true }
  /** Unknown, used, too old, or of somebody disabled. */
  | { ok: false; reason: "key-does-not-open" }
  | { ok: false; reason: "refused"; issues: readonly z.core.$ZodIssue[] };

/** Whether a mailed key would let a password be set; it is not used up by looking. */
export async function mayPasswordBeSet(key: string): Promise<boolean> {
  return (await findPersonByKey(hashSecret(key), new Date())) !== null;
}

/** Sets the password of whoever holds the mailed key, which is used up. Sessions under the old password end. */
export async function setPassword(key: string, typed: unknown, now: Date = new Date()): Promise<SetPasswordResult> {
  const hash = hashSecret(key);
  const person = await findPersonByKey(hash, now);
  if (!person) return { ok: false, reason: "key-does-not-open" };
  const input = newPasswordSchema(person).safeParse(typed);
  if (!input.success) return { ok: false, reason: "refused", issues: input.error.issues };
  const passwordHash = await hashPassword(input.data.password);
  return inTransaction(async (db) => {
    if (!(await spendPersonKey(db, hash, now))) return { ok: false, reason: "key-does-not-open" };
    await updatePerson(db, person.id, { passwordHash });
    await deleteSessionsOf(db, person.id);
    await appendAudit(db, { actor: { kind: "staff", personId: person.id }, action: "set_password" });
    return { ok: true };
  });
}
