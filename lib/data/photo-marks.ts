import "server-only";
import { type Db, database } from "./client";

const MARK = { id: true, number: true, x: true, y: true, word: true, madeAt: true, madeBy: { select: { id: true, name: true } } } as const;

/** The marks that stand on the photos of a claim, and of those merged into it, by photo and number. */
export function listMarksOfClaim(claimId: string) {
  return database().photoMark.findMany({
    where: { removedAt: null, photo: { claim: { OR: [{ id: claimId }, { mergedIntoId: claimId }] } } },
    orderBy: [{ photo: { createdAt: "asc" } }, { photoId: "asc" }, { number: "asc" }],
    select: { ...MARK, photoId: true },
  });
}

/** A photo as a claim shows it, its own or of one merged into it, with the marks that stand on it; null for another claim's. */
export function findMarkedPhoto(claimId: string, photoId: string) {
  return database().photo.findFirst({
    where: { id: photoId, claim: { stage: { not: "draft" }, OR: [{ id: claimId }, { mergedIntoId: claimId }] } },
    select: { id: true, subject: true, width: true, height: true, takenBy: true, createdAt: true, marks: { where: { removedAt: null }, orderBy: { number: "asc" }, select: MARK } },
  });
}

/** Keeps a mark under the next number of its photo, in a transaction that holds the claim. */
export async function insertMark(db: Db, mark: { photoId: string; x: number; y: number; word: string; madeById: string }): Promise<{ number: number }> {
  const { _max } = await db.photoMark.aggregate({ where: { photoId: mark.photoId }, _max: { number: true } });
  return db.photoMark.create({ data: { ...mark, number: (_max.number ?? 0) + 1 }, select: { number: true } });
}

/** A mark that stands on a photo of this claim or of one merged into it; null where there is none. */
export function findMark(claimId: string, markId: string, db: Db = database()) {
  return db.photoMark.findFirst({
    where: { id: markId, removedAt: null, photo: { claim: { OR: [{ id: claimId }, { mergedIntoId: claimId }] } } },
    select: { id: true, number: true, photoId: true, madeById: true },
  });
}

/** Takes a mark away, unless somebody else just has. Its number stays used. */
export async function removeMark(db: Db, markId: string, removedById: string, now: Date): Promise<boolean> {
  const { count } = await db.photoMark.updateMany({ where: { id: markId, removedAt: null }, data: { removedById, removedAt: now } });
  return count === 1;
}
