import "server-only";
import type { BenchStep } from "@/lib/domain/claims/bench-steps";
import type { Observer } from "@/lib/domain/diagnosis/knowledge";
import { type Db, database } from "./client";

export interface PhotoToInsert {
  claimId: string;
  subject: string;
  storageKey: string;
  width: number;
  height: number;
  bytes: number;
  sha256: string;
  takenBy: Observer;
  /** Of the bench: at which step of which inspection. */
  benchInspectionId?: string;
  benchStep?: BenchStep;
}

export function insertPhoto(db: Db, photo: PhotoToInsert): Promise<{ id: string }> {
  return db.photo.create({ data: photo, select: { id: true } });
}

/** Where the picture of a photo and the small one lie. */
export function pictureKeys(storageKey: string): [full: string, small: string] {
  return [storageKey, `${storageKey}-small`];
}

/** The photo a claim has of the same picture already, or null. */
export function findPhotoByContent(claimId: string, sha256: string, db: Db = database()) {
  return db.photo.findUnique({ where: { claimId_sha256: { claimId, sha256 } }, select: { id: true } });
}

export function listPhotos(claimId: string) {
  return database().photo.findMany({ where: { claimId }, orderBy: [{ createdAt: "asc" }, { id: "asc" }] });
}

/** What the customer has taken: the bench's photos are the house's until one goes with a letter. */
export const TAKEN_OUTSIDE = { takenBy: { not: "bench" } } as const;

/** The photos of a claim that its customer has taken, oldest first. */
export function listOwnPhotos(claimId: string) {
  return database().photo.findMany({ where: { claimId, ...TAKEN_OUTSIDE }, orderBy: [{ createdAt: "asc" }, { id: "asc" }] });
}

/** A photo that a claim shows to its customer: one of their own, or one that goes with a letter to them; null for any other. */
export async function findPhotoForCustomer(claimId: string, photoId: string) {
  const photo = await database().photo.findFirst({ where: { id: photoId, claimId } });
  if (photo?.takenBy !== "bench") return photo;
  return (await database().verdict.count({ where: { claimId, letterPhotos: { has: photoId } } })) > 0 ? photo : null;
}

/** The photos a claim shows to staff: its own and those of the claims merged into it, oldest first. */
export function listShownPhotos(claimId: string) {
  return database().photo.findMany({ where: shownWith(claimId), orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true } });
}

/** A photo that a claim shows to staff; null for another claim's. */
export function findShownPhoto(claimId: string, photoId: string) {
  return database().photo.findFirst({ where: { id: photoId, ...shownWith(claimId) } });
}

const shownWith = (claimId: string) => ({ claim: { stage: { not: "draft" as const }, OR: [{ id: claimId }, { mergedIntoId: claimId }] } });

/** The photos that the customer's own number of them is counted against. */
export function countPhotos(claimId: string, db: Db = database()): Promise<number> {
  return db.photo.count({ where: { claimId, ...TAKEN_OUTSIDE } });
}

export function countBenchPhotos(claimId: string, db: Db = database()): Promise<number> {
  return db.photo.count({ where: { claimId, takenBy: "bench" } });
}

/** Deletes a photo of a draft; false once the claim is filed, or when the photo is gone. Ask with the claim locked. */
export async function deleteDraftPhoto(db: Db, claimId: string, photoId: string): Promise<boolean> {
  const { count } = await db.photo.deleteMany({ where: { id: photoId, claimId, claim: { stage: "draft" } } });
  return count === 1;
}
