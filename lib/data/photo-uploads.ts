import "server-only";
import { PIECE_BYTES } from "@/lib/domain/intake/photo-pieces";
import { type Db, database } from "./client";

export interface PhotoUpload {
  id: string;
  claimId: string;
  bytes: number;
  received: number;
  isDone: boolean;
}

export function findUpload(id: string): Promise<PhotoUpload | null> {
  return database().photoUpload.findUnique({ where: { id } });
}

export function insertUpload(upload: { id: string; claimId: string; bytes: number }): Promise<PhotoUpload> {
  return database().photoUpload.create({ data: upload });
}

/** Notes that a piece has arrived; false when somebody else has noted one since. */
export async function advanceUpload({ id, received }: PhotoUpload, by: number): Promise<boolean> {
  const { count } = await database().photoUpload.updateMany({ where: { id, received, isDone: false }, data: { received: { increment: by } } });
  return count === 1;
}

export async function finishUpload(id: string): Promise<void> {
  await database().photoUpload.updateMany({ where: { id }, data: { isDone: true } });
}

export async function deleteUpload(id: string): Promise<void> {
  await database().photoUpload.deleteMany({ where: { id } });
}

export function countUnfinishedUploads(claimId: string): Promise<number> {
  return database().photoUpload.count({ where: { claimId, isDone: false } });
}

/** Removes uploads, and returns every place where a piece of them may still lie. */
export async function deleteUploads(db: Db, where: { createdAt: { lt: Date } } | { claimId: { in: string[] } }): Promise<string[]> {
  const uploads = await db.photoUpload.findMany({ where });
  await db.photoUpload.deleteMany({ where: { id: { in: uploads.map(({ id }) => id) } } });
  // A process may have been killed before it had noted a piece, or had removed those of a photo that was whole.
  return uploads.flatMap((upload) => pieceKeys({ ...upload, received: upload.bytes }));
}

/** Where the piece that begins after so many bytes lies in the object store. */
export function pieceKey({ claimId, id }: Pick<PhotoUpload, "claimId" | "id">, begin: number): string {
  return `claims/${claimId}/uploads/${id}/${begin}`;
}

/** Where all that has arrived lies, in order. */
export function pieceKeys(upload: Pick<PhotoUpload, "claimId" | "id" | "received">): string[] {
  return Array.from({ length: Math.ceil(upload.received / PIECE_BYTES) }, (_, piece) => pieceKey(upload, piece * PIECE_BYTES));
}
