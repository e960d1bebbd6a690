import "server-only";
import { type Db, database } from "./client";

/** Keeps a session by the hash of its token. */
export async function insertStaffSession(db: Db, session: { tokenHash: string; personId: string; expiresAt: Date }): Promise<void> {
  await db.staffSession.create({ data: session });
}

/** The live session of a person who is not disabled, or null. */
export function findStaffSession(tokenHash: string, now: Date) {
  return database().staffSession.findFirst({
    where: { tokenHash, expiresAt: { gt: now }, person: { disabledAt: null } },
    include: { person: { select: { id: true, name: true, email: true, role: true } } },
  });
}

export async function deleteStaffSession(tokenHash: string): Promise<void> {
  await database().staffSession.deleteMany({ where: { tokenHash } });
}

/** Ends every session of a person, in the transaction that disables them or changes their role. */
export async function deleteSessionsOf(db: Db, personId: string): Promise<void> {
  await db.staffSession.deleteMany({ where: { personId } });
}
