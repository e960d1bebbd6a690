import "server-only";
import type { Observer } from "@/lib/domain/diagnosis/knowledge";
import { type Db, database, isUniqueViolation } from "./client";

export interface PhotoToInsert {
  claimId: string;
  subject: string;
  storageKey: string;
  width: number;
  height: number;
  bytes: number;
  sha256: string;
  takenBy: Observer;
}

/** Keeps a photo of a claim; null when the claim has the same picture already. */
export async function insertPhoto(db: Db, photo: PhotoToInsert): Promise<{ id: string } | null> {
  try {
    return await db.photo.create({ data: photo, select: { id: true } });
  } catch (error) {
    if (isUniqueViolation(error)) return null;
    throw error;
  }
}

export function findPhotoByContent(claimId: string, sha256: string) {
  return database().photo.findUnique({ where: { claimId_sha256: { claimId, sha256 } }, select: { id: true } });
}

export function listPhotos(claimId: string) {
  return database().photo.findMany({ where: { claimId }, orderBy: [{ createdAt: "asc" }, { id: "asc" }] });
}

/** A photo of this claim; null for another claim's. */
export function findPhoto(claimId: string, photoId: string) {
  return database().photo.findFirst({ where: { id: photoId, claimId } });
}

export function countPhotos(claimId: string): Promise<number> {
  return database().photo.count({ where: { claimId } });
}

export async function deletePhoto(claimId: string, photoId: string): Promise<void> {
  await database().photo.deleteMany({ where: { id: photoId, claimId } });
}
