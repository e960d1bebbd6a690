import "server-only";
import { type Db, database } from "./client";

export interface SavedFilter {
  id: string;
  name: string;
  query: string;
  isStart: boolean;
}

const SHOWN = { id: true, name: true, query: true, isStart: true } as const;

/** A person's own filters by name. */
export function listSavedFilters(personId: string): Promise<SavedFilter[]> {
  return database().savedFilter.findMany({ where: { personId }, orderBy: { name: "asc" }, select: SHOWN });
}

/** Lets changes to the filters of a person follow one another. */
export async function lockFiltersOf(db: Db, personId: string): Promise<void> {
  await db.$queryRaw`SELECT 1 FROM person WHERE id = ${personId}::uuid FOR NO KEY UPDATE`;
}

export function countOtherFilters(db: Db, personId: string, name: string): Promise<number> {
  return db.savedFilter.count({ where: { personId, name: { not: name } } });
}

/** Keeps a filter under its name; one of the same name is replaced. */
export async function keepSavedFilter(db: Db, filter: { personId: string; name: string; query: string }): Promise<void> {
  const { personId, name, query } = filter;
  await db.savedFilter.upsert({ where: { personId_name: { personId, name } }, create: filter, update: { query } });
}

/** Removes a filter of this person; what was none of theirs stays. */
export async function deleteSavedFilter(db: Db, personId: string, id: string): Promise<void> {
  await db.savedFilter.deleteMany({ where: { id, personId } });
}

/** Makes one filter the page a person starts on, or none. */
export async function updateStartFilter(db: Db, personId: string, id: string | null): Promise<void> {
  await db.savedFilter.updateMany({ where: { personId, isStart: true }, data: { isStart: false } });
  if (id) await db.savedFilter.updateMany({ where: { id, personId }, data: { isStart: true } });
}

/** Query of the filter that a person starts with, or null. */
export async function findStartFilter(personId: string): Promise<string | null> {
  return (await database().savedFilter.findFirst({ where: { personId, isStart: true }, select: { query: true } }))?.query ?? null;
}
