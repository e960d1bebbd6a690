import "server-only";
import type { z } from "zod";
import { SESSION_SECONDS } from "@/lib/access/auth-options";
import { passwordMatches } from "@/lib/access/passwords";
import { hashSecret, newSecret } from "@/lib/access/secrets";
import { appendAudit } from "@/lib/data/audit";
import { database, inTransaction } from "@/lib/data/client";
import { findPersonByEmail } from "@/lib/data/people";
import { countTry, forgetTries, type LimitedThing, SHARED_CALLER } from "@/lib/data/rate-limit";
import { insertStaffSession } from "@/lib/data/staff-sessions";
import type { Role } from "@/lib/domain/claims/roles";
import type { signInSchema } from "@/lib/inputs/sign-in";
import { startAddress } from "./saved-filters";

export type SignInResult = { ok: true; token: string; role: Role; /** Address of the view of the queue that the person starts with, if they chose one. */ start: string | null } | { ok: false; reason: "wrong" | "too-many-tries" };

/**
 * Signs a person in: the password is checked, tries are counted, and a session is kept. Tries are counted by address, and
 * by person from that address: a stranger elsewhere shuts nobody out.
 * Unknown, disabled, without a password and wrong all get the same answer in the same time.
 *
 * @param caller the address, as `callerAddress` gives it
 */
export async function signIn({ email, password }: z.output<typeof signInSchema>, caller: string): Promise<SignInResult> {
  const asPerson: [LimitedThing, string] = caller === SHARED_CALLER ? ["sign-in-shared", email] : ["sign-in", `${email} ${caller}`];
  const counted = [await countTry(...asPerson), await countTry("sign-in-address", caller)];
  if (counted.includes(false)) return { ok: false, reason: "too-many-tries" };

  const person = await findPersonByEmail(email);
  const matches = await passwordMatches(person?.passwordHash ?? null, password);
  if (!person || !matches || person.disabledAt) {
    // Also where there is no such person: writing it takes time.
    await appendAudit(database(), { actor: { kind: "system" }, action: "sign_in_refused", detail: { personId: person?.id ?? null } });
    return { ok: false, reason: "wrong" };
  }
  const token = newSecret();
  await inTransaction(async (db) => {
    await insertStaffSession(db, { tokenHash: hashSecret(token), personId: person.id, expiresAt: new Date(Date.now() + SESSION_SECONDS * 1000) });
    await appendAudit(db, { actor: { kind: "staff", personId: person.id }, action: "sign_in" });
  });
  await forgetTries(...asPerson);
  return { ok: true, token, role: person.role, start: await startAddress(person.id) };
}
