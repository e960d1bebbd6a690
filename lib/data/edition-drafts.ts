import "server-only";
import type { Edits } from "@/lib/domain/diagnosis/edition-edits";
import { type Db, database } from "./client";

export interface EditionDraft {
  id: string;
  basisNumber: number;
  typed: Edits;
  updatedAt: Date;
}

// Only what `keepEdits` let through is ever stored.
const draftOf = (row: { id: string; basisNumber: number; typed: unknown; updatedAt: Date }): EditionDraft => ({ ...row, typed: row.typed as Edits });

const DRAFT = { id: true, basisNumber: true, typed: true, updatedAt: true } as const;

/** A person's draft on this basis: the one there is, or a new one. */
export async function ensureEditionDraft(personId: string, basisNumber: number, db: Db = database()): Promise<string> {
  const { id } = await db.editionDraft.upsert({ where: { personId_basisNumber: { personId, basisNumber } }, create: { personId, basisNumber }, update: {}, select: { id: true } });
  return id;
}

/** A draft of this person; another's is not found. */
export async function findEditionDraft(personId: string, id: string, db: Db = database()): Promise<EditionDraft | null> {
  const row = await db.editionDraft.findFirst({ where: { id, personId }, select: DRAFT });
  return row && draftOf(row);
}

export async function listEditionDrafts(personId: string): Promise<EditionDraft[]> {
  const rows = await database().editionDraft.findMany({ where: { personId }, select: DRAFT, orderBy: { basisNumber: "desc" } });
  return rows.map(draftOf);
}

/** The draft, and nobody else may change it until the transaction ends: two windows of one person add to it. */
export async function lockEditionDraft(db: Db, personId: string, id: string): Promise<EditionDraft | null> {
  await db.$queryRaw`SELECT 1 FROM edition_draft WHERE id = ${id}::uuid FOR UPDATE`;
  return findEditionDraft(personId, id, db);
}

export async function updateEditionDraft(db: Db, id: string, typed: Edits): Promise<void> {
  await db.editionDraft.update({ where: { id }, data: { typed } });
}

export async function deleteEditionDraft(db: Db, personId: string, id: string): Promise<boolean> {
  const { count } = await db.editionDraft.deleteMany({ where: { id, personId } });
  return count === 1;
}
