import "server-only";
import { type Db, database } from "./client";

/** The same words within this time are a form that was posted again; later they are meant (judgement). */
const POSTED_AGAIN_WITHIN_MINUTES = 10;

/** The desk's notes about a claim and those merged into it, oldest first. */
export function listDeskNotes(claimId: string) {
  return database().deskNote.findMany({
    where: { claim: { OR: [{ id: claimId }, { mergedIntoId: claimId }] } },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    select: { id: true, body: true, createdAt: true, person: { select: { name: true } } },
  });
}

/** Keeps a note; false where the same person has just written the same. Ask with the claim locked. */
export async function insertDeskNote(db: Db, note: { claimId: string; personId: string; body: string }, now: Date): Promise<boolean> {
  const isPostedAgain = (await db.deskNote.count({ where: { ...note, createdAt: { gt: new Date(now.getTime() - POSTED_AGAIN_WITHIN_MINUTES * 60_000) } } })) > 0;
  if (!isPostedAgain) await db.deskNote.create({ data: note });
  return !isPostedAgain;
}
