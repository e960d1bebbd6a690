import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction, isUniqueViolation } from "@/lib/data/client";
import { insertPerson } from "@/lib/data/people";
import type { invitationSchema } from "@/lib/inputs/people";
import { mailPasswordLink } from "./password-links";
import { auditActor, refuse, type Refusal } from "./refusal";

export type InvitePersonResult = { ok: true; personId: string } | Refusal | { ok: false; reason: "email-taken" };

/** Gives somebody a place at the desk, and mails them a link to choose their password. */
export async function invitePerson(actor: StaffActor, invited: z.output<typeof invitationSchema>, now: Date = new Date()): Promise<InvitePersonResult> {
  const refused = await refuse(actor, "manage people");
  if (refused) return refused;
  try {
    return await inTransaction(async (db) => {
      const person = await insertPerson(db, invited);
      await mailPasswordLink(db, person, "invitation", now);
      await appendAudit(db, { actor: auditActor(actor), action: "invite_person", detail: { personId: person.id, role: person.role } });
      return { ok: true, personId: person.id };
    });
  } catch (error) {
    if (isUniqueViolation(error)) return { ok: false, reason: "email-taken" };
    throw error;
  }
}
