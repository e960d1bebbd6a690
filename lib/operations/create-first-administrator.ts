import "server-only";
import type { z } from "zod";
import { hashPassword } from "@/lib/access/passwords";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction, isUniqueViolation } from "@/lib/data/client";
import { hasAdministrator, insertPerson } from "@/lib/data/people";
import { firstAdministratorSchema } from "@/lib/inputs/people";
import { newPasswordSchema } from "@/lib/inputs/sign-in";

export type CreateFirstAdministratorResult =
  | { ok: true }
  | { ok: false; reason: "there-is-one-already" | "name-or-e-mail-address-not-right" | "password-too-short-or-too-easy" | "e-mail-address-taken" };

/**
 * Makes the administrator who can invite everybody else, where there is none. From the command line only: whoever
 * holds the database is trusted.
 */
export async function createFirstAdministrator(given: z.input<typeof firstAdministratorSchema>): Promise<CreateFirstAdministratorResult> {
  const input = firstAdministratorSchema.safeParse(given);
  if (!input.success) return { ok: false, reason: "name-or-e-mail-address-not-right" };
  const { name, email, password } = input.data;
  if (!newPasswordSchema({ name, email }).safeParse({ password, again: password }).success) return { ok: false, reason: "password-too-short-or-too-easy" };
  const passwordHash = await hashPassword(password);
  try {
    return await inTransaction(async (db) => {
      if (await hasAdministrator(db)) return { ok: false, reason: "there-is-one-already" };
      const person = await insertPerson(db, { name, email, role: "admin", passwordHash });
      await appendAudit(db, { actor: { kind: "system" }, action: "create_first_administrator", detail: { personId: person.id } });
      return { ok: true };
    });
  } catch (error) {
    if (isUniqueViolation(error)) return { ok: false, reason: "e-mail-address-taken" };
    throw error;
  }
}
