import "server-only";
import type { Role } from "@/lib/domain/claims/roles";
import { type Db, database } from "./client";

/** A person with the hash of their password, for signing in. */
export function findPersonByEmail(email: string) {
  return database().person.findUnique({ where: { email }, select: { id: true, email: true, name: true, role: true, passwordHash: true, disabledAt: true } });
}

export function findPerson(db: Db, personId: string) {
  return db.person.findUnique({ where: { id: personId }, select: { id: true, email: true, name: true, role: true, disabledAt: true } });
}

export interface PersonListed {
  id: string;
  email: string;
  name: string;
  role: Role;
  hasPassword: boolean;
  disabledAt: Date | null;
}

/** Everybody, by name; those disabled last. */
export async function listPeople(): Promise<PersonListed[]> {
  const people = await database().person.findMany({
    orderBy: [{ disabledAt: { sort: "asc", nulls: "first" } }, { name: "asc" }, { id: "asc" }],
    select: { id: true, email: true, name: true, role: true, passwordHash: true, disabledAt: true },
  });
  return people.map(({ passwordHash, ...person }) => ({ ...person, hasPassword: passwordHash !== null }));
}

/** Keeps a new person, without a password unless its hash is given. */
export function insertPerson(db: Db, person: { email: string; name: string; role: Role; passwordHash?: string }) {
  return db.person.create({ data: person, select: { id: true, email: true, name: true, role: true } });
}

export async function updatePerson(db: Db, personId: string, changes: { role?: Role; disabledAt?: Date | null; passwordHash?: string }): Promise<void> {
  await db.person.update({ where: { id: personId }, data: changes });
}

/**
 * Whether an administrator who can sign in is left beside this person. The administrators are locked until the
 * transaction ends, so that two who end each other's rights at once are not both let.
 */
export async function isAnotherAdministrator(db: Db, personId: string): Promise<boolean> {
  const administrators = await db.$queryRaw<{ id: string }[]>`
    SELECT id FROM person WHERE role = 'admin' AND disabled_at IS NULL AND password_hash IS NOT NULL ORDER BY id FOR UPDATE`;
  return administrators.some(({ id }) => id !== personId);
}

/** Whether there is an administrator. Nobody else can be added before the transaction ends. */
export async function hasAdministrator(db: Db): Promise<boolean> {
  await db.$executeRaw`LOCK TABLE person IN SHARE ROW EXCLUSIVE MODE`;
  return (await db.person.count({ where: { role: "admin", disabledAt: null } })) > 0;
}

/** Keeps a one-time key to set a password; those sent before it no longer work. */
export async function insertPersonKey(db: Db, key: { personId: string; hash: string; expiresAt: Date }): Promise<void> {
  await deletePersonKeysOf(db, key.personId);
  await db.personKey.create({ data: key });
}

/** Every unused key of a person stops working. */
export async function deletePersonKeysOf(db: Db, personId: string): Promise<void> {
  await db.personKey.deleteMany({ where: { personId, usedAt: null } });
}

/** Whose key this is, while it can be used and they are not disabled. It is not used up. */
export async function findPersonByKey(hash: string, now: Date) {
  const key = await database().personKey.findFirst({
    where: { hash, usedAt: null, expiresAt: { gt: now }, person: { disabledAt: null } },
    select: { person: { select: { id: true, email: true, name: true } } },
  });
  return key?.person ?? null;
}

/** Uses up a key; of two at once, one gets it. */
export async function spendPersonKey(db: Db, hash: string, now: Date): Promise<boolean> {
  const spent = await db.personKey.updateMany({ where: { hash, usedAt: null, expiresAt: { gt: now } }, data: { usedAt: now } });
  return spent.count === 1;
}
