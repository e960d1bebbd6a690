import "server-only";
import { staffByToken } from "@/lib/access/staff";
import { hashSecret } from "@/lib/access/secrets";
import { appendAudit } from "@/lib/data/audit";
import { database } from "@/lib/data/client";
import { deleteStaffSession } from "@/lib/data/staff-sessions";

/** Ends the session of this token, if it is one. */
export async function signOut(token: string): Promise<void> {
  const actor = await staffByToken(token);
  if (actor) await appendAudit(database(), { actor: { kind: "staff", personId: actor.personId }, action: "sign_out" });
  await deleteStaffSession(hashSecret(token));
}
