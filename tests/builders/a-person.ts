import { randomUUID } from "node:crypto";
import type { StaffActor } from "@/lib/access/actors";
import { hashPassword } from "@/lib/access/passwords";
import { hashSecret, newSecret } from "@/lib/access/secrets";
import { staffByToken } from "@/lib/access/staff";
import { database } from "@/lib/data/client";
import type { Role } from "@/lib/domain/claims/roles";

/** A person on the database. Their password is only hashed when it is given, since that is slow on purpose. */
export async function aPerson({ role = "support", name = "Wren Calder", email, password, disabledAt = null }: { role?: Role; name?: string; email?: string; password?: string; disabledAt?: Date | null } = {}) {
  return database().person.create({
    data: {
      role,
      name,
      email: email ?? `${randomUUID()}@shop.example`,
      // Any Argon2id hash will do for somebody who never signs in by password.
      passwordHash: password === undefined ? "$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$bm9ib2R5" : await hashPassword(password),
      disabledAt,
    },
    select: { id: true, name: true, email: true, role: true },
  });
}

/** A session of a person, as signing in makes it. */
export async function aSession(personId: string): Promise<string> {
  const token = newSecret();
  await database().staffSession.create({ data: { tokenHash: hashSecret(token), personId, expiresAt: new Date(Date.now() + 3_600_000) } });
  return token;
}

/** A signed-in person of this role. */
export async function aStaffActor(role: Role): Promise<StaffActor> {
  const actor = await staffByToken(await aSession((await aPerson({ role })).id));
  if (!actor) throw new Error("the builder's own session is not live");
  return actor;
}
