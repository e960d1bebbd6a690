import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { isUniqueViolation } from "@/lib/data/client";
import { advanceUpload, countUnfinishedUploads, deleteUpload, findUpload, finishUpload, insertUpload, type PhotoUpload, pieceKey, pieceKeys } from "@/lib/data/photo-uploads";
import { countPhotos } from "@/lib/data/photos";
import { MOST_PHOTO_BYTES, MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { pieceLength } from "@/lib/domain/intake/photo-pieces";
import { getObject, putObject, removeObject } from "@/lib/files/store";
import { twoAtATime } from "@/lib/files/two-at-a-time";
import { type AttachPhotoResult, attachPhoto, mayUpload } from "./attach-photo";

/** One piece of a photo, as the device sends it. */
export interface Piece {
  /** Made by the device; the same for all pieces of one photo. */
  uploadId: string;
  /** Of the whole photo. */
  bytes: number;
  /** How many bytes come before it. */
  begin: number;
  content: Uint8Array;
}

export type ReceivePieceResult =
  | { ok: true; received: number; isWhole: boolean }
  /** Another piece is due: the one that begins after so many bytes. */
  | { ok: false; reason: "another-piece"; received: number }
  | { ok: false; reason: Exclude<AttachPhotoResult, { ok: true }>["reason"] | "too-many-tries" };

/** How much of a photo of the customer's own claim has arrived. */
export async function howMuchArrived(actor: CustomerActor, uploadId: string): Promise<{ received: number; isWhole: boolean }> {
  const upload = await findUpload(uploadId);
  return upload?.claimId === actor.claimId ? { received: upload.received, isWhole: upload.isDone } : { received: 0, isWhole: false };
}

/**
 * Takes in one piece of a photo for the customer's own claim, a draft or a filed one; with the last piece it becomes a
 * photo. Any process may take any piece. A piece sent twice, or after a killed process, does no harm: each is told which
 * one is due.
 *
 * @param caller for counting uploads
 */
export async function receivePiece(actor: CustomerActor, piece: Piece, caller: string): Promise<ReceivePieceResult> {
  const upload = await beginOrGoOn(actor, piece, caller);
  if (!("id" in upload)) return upload;
  if (upload.isDone) return { ok: true, received: upload.bytes, isWhole: true };
  const isDue = piece.begin === upload.received && piece.bytes === upload.bytes && piece.content.length === pieceLength(upload.bytes, upload.received);
  if (!isDue) return { ok: false, reason: "another-piece", received: upload.received };

  if (piece.content.length > 0) {
    await putObject(pieceKey(upload, piece.begin), piece.content, "application/octet-stream");
    if (!(await advanceUpload(upload, piece.content.length))) return { ok: false, reason: "another-piece", ...(await howMuchArrived(actor, upload.id)) };
  }
  const received = upload.received + piece.content.length;
  return received < upload.bytes ? { ok: true, received, isWhole: false } : putTogether(actor, { ...upload, received });
}

/** The upload this piece belongs to, begun with its first piece; or why there is none. */
async function beginOrGoOn(actor: CustomerActor, { uploadId: id, bytes, begin }: Piece, caller: string): Promise<PhotoUpload | Exclude<ReceivePieceResult, { ok: true }>> {
  const { claimId } = actor;
  const begun = await findUpload(id);
  // Somebody else's number: as if it did not exist.
  if (begun) return begun.claimId === claimId ? begun : { ok: false, reason: "not-a-photo" };
  if (begin > 0) return { ok: false, reason: "another-piece", received: 0 };
  if (bytes <= 0) return { ok: false, reason: "empty" };
  if (bytes > MOST_PHOTO_BYTES) return { ok: false, reason: "too-big" };
  if (!(await mayUpload(caller))) return { ok: false, reason: "too-many-tries" };
  const [photos, unfinished] = await Promise.all([countPhotos(claimId), countUnfinishedUploads(claimId)]);
  if (photos >= MOST_PHOTOS || unfinished >= MOST_PHOTOS) return { ok: false, reason: "too-many-photos" };
  try {
    return await insertUpload({ id, claimId, bytes });
  } catch (error) {
    if (!isUniqueViolation(error)) throw error;
    return { ok: false, reason: "another-piece", ...(await howMuchArrived(actor, id)) };
  }
}

async function putTogether(actor: CustomerActor, upload: PhotoUpload): Promise<ReceivePieceResult> {
  const keys = pieceKeys(upload);
  const attached = await twoAtATime(async () => {
    const pieces = await Promise.all(keys.map(getObject));
    return pieces.every((piece) => piece !== null) ? attachPhoto(actor, new Uint8Array(Buffer.concat(pieces))) : null;
  });
  // Another process has put it together meanwhile, or the store has lost a piece: then it begins anew.
  if (!attached) {
    if ((await findUpload(upload.id))?.isDone) return { ok: true, received: upload.bytes, isWhole: true };
    await deleteUpload(upload.id);
    return { ok: false, reason: "another-piece", received: 0 };
  }
  // Once one was removed there is room for it.
  if (!attached.ok && attached.reason === "too-many-photos") return attached;
  if (attached.ok) await finishUpload(upload.id);
  else await deleteUpload(upload.id);
  await Promise.all(keys.map(removeObject));
  return attached.ok ? { ok: true, received: upload.bytes, isWhole: true } : attached;
}
