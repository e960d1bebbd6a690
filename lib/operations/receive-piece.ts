import "server-only";
import type { CustomerActor, StaffActor } from "@/lib/access/actors";
import { findOpenInspection } from "@/lib/data/bench-inspections";
import { isUniqueViolation } from "@/lib/data/client";
import { advanceUpload, countUnfinishedUploads, deleteUpload, findUpload, finishUpload, insertUpload, type PhotoUpload, pieceKey, pieceKeys } from "@/lib/data/photo-uploads";
import { countBenchPhotos, countPhotos } from "@/lib/data/photos";
import { findUnitOnBench } from "@/lib/data/returns";
import { type BenchStep, MOST_BENCH_PHOTOS } from "@/lib/domain/claims/bench-steps";
import { MOST_PHOTO_BYTES, MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { pieceLength } from "@/lib/domain/intake/photo-pieces";
import { getObject, putObject, removeObject } from "@/lib/files/store";
import { twoAtATime } from "@/lib/files/two-at-a-time";
import { type AttachBenchPhotoResult, attachBenchPhoto } from "./attach-bench-photo";
import { type AttachPhotoResult, attachPhoto, mayUpload } from "./attach-photo";
import { refuse, type Refusal } from "./refusal";

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

export interface HowMuch {
  received: number;
  isWhole: boolean;
}

type Taken<R extends string> =
  | ({ ok: true } & HowMuch)
  /** Another piece is due: the one that begins after so many bytes. */
  | ({ ok: false; reason: "another-piece" } & HowMuch)
  | { ok: false; reason: R | "empty" | "too-big" | "not-a-photo" | "too-many-photos" };

type ReasonOf<T extends { ok: boolean }> = Exclude<T, { ok: true }> extends { reason: infer R extends string } ? R : never;

export type ReceivePieceResult = Taken<ReasonOf<AttachPhotoResult> | "too-many-tries">;
export type ReceiveBenchPieceResult = Taken<ReasonOf<AttachBenchPhotoResult>>;

/** Where pieces are put together to a photo: whose claim, whether one more may be begun, and what a whole one becomes. */
interface Album<R extends string> {
  claimId: string;
  /** Most photos, and as many more on their way. */
  most: number;
  countPhotos(): Promise<number>;
  /** Why none may be begun; null where one may. */
  refusesToBegin(): Promise<R | null>;
  attach(photo: Uint8Array): Promise<{ ok: true } | { ok: false; reason: R | "too-many-photos" }>;
}

/** How much of a photo of the customer's own claim has arrived. */
export function howMuchArrived({ claimId }: CustomerActor, uploadId: string): Promise<HowMuch> {
  return arrivedOf(claimId, uploadId);
}

/** How much of a photo of the bench has arrived. */
export async function howMuchArrivedAtBench(actor: StaffActor, claimId: string, uploadId: string): Promise<({ ok: true } & HowMuch) | Refusal> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  return refused ?? { ok: true, ...(await arrivedOf(claimId, uploadId)) };
}

/**
 * Takes in one piece of a photo for the customer's own claim, a draft or a filed one; with the last piece it becomes a
 * photo.
 *
 * @param caller for counting uploads
 */
export function receivePiece(actor: CustomerActor, piece: Piece, caller: string): Promise<ReceivePieceResult> {
  const { claimId } = actor;
  return takePiece<Exclude<ReasonOf<ReceivePieceResult>, "another-piece">>(
    {
      claimId,
      most: MOST_PHOTOS,
      countPhotos: () => countPhotos(claimId),
      refusesToBegin: async () => ((await mayUpload(caller)) ? null : "too-many-tries"),
      attach: (photo) => attachPhoto(actor, photo),
    },
    piece,
  );
}

/** The same for a photo taken at a step of the inspection that is under way. */
export async function receiveBenchPiece(actor: StaffActor, claimId: string, step: BenchStep, piece: Piece): Promise<ReceiveBenchPieceResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  return takePiece<ReasonOf<AttachBenchPhotoResult>>(
    {
      claimId,
      most: MOST_BENCH_PHOTOS,
      countPhotos: () => countBenchPhotos(claimId),
      refusesToBegin: async () => {
        const unit = await findUnitOnBench(claimId);
        return unit && (await findOpenInspection(unit.id)) ? null : "not-on-the-bench";
      },
      attach: (photo) => attachBenchPhoto(actor, claimId, step, photo),
    },
    piece,
  );
}

async function arrivedOf(claimId: string, uploadId: string): Promise<HowMuch> {
  const upload = await findUpload(uploadId);
  return upload?.claimId === claimId ? { received: upload.received, isWhole: upload.isDone } : { received: 0, isWhole: false };
}

/** Any process may take any piece. One sent twice, or after a killed process, does no harm: each is told which one is due. */
async function takePiece<R extends string>(album: Album<R>, piece: Piece): Promise<Taken<R>> {
  const upload = await beginOrGoOn(album, piece);
  if (!("id" in upload)) return upload;
  if (upload.isDone) return { ok: true, received: upload.bytes, isWhole: true };
  const isDue = piece.begin === upload.received && piece.bytes === upload.bytes && piece.content.length === pieceLength(upload.bytes, upload.received);
  if (!isDue) return { ok: false, reason: "another-piece", received: upload.received, isWhole: false };

  if (piece.content.length > 0) {
    await putObject(pieceKey(upload, piece.begin), piece.content, "application/octet-stream");
    if (!(await advanceUpload(upload, piece.content.length))) return { ok: false, reason: "another-piece", ...(await arrivedOf(album.claimId, upload.id)) };
  }
  const received = upload.received + piece.content.length;
  return received < upload.bytes ? { ok: true, received, isWhole: false } : putTogether(album, { ...upload, received });
}

/** The upload this piece belongs to, begun with its first piece; or why there is none. */
async function beginOrGoOn<R extends string>(album: Album<R>, { uploadId: id, bytes, begin }: Piece): Promise<PhotoUpload | Exclude<Taken<R>, { ok: true }>> {
  const { claimId, most } = album;
  const begun = await findUpload(id);
  // Somebody else's number: as if it did not exist.
  if (begun) return begun.claimId === claimId ? begun : { ok: false, reason: "not-a-photo" };
  if (begin > 0) return { ok: false, reason: "another-piece", received: 0, isWhole: false };
  if (bytes <= 0) return { ok: false, reason: "empty" };
  if (bytes > MOST_PHOTO_BYTES) return { ok: false, reason: "too-big" };
  const reason = await album.refusesToBegin();
  if (reason) return { ok: false, reason };
  const [photos, unfinished] = await Promise.all([album.countPhotos(), countUnfinishedUploads(claimId)]);
  if (photos >= most || unfinished >= most) return { ok: false, reason: "too-many-photos" };
  try {
    return await insertUpload({ id, claimId, bytes });
  } catch (error) {
    if (!isUniqueViolation(error)) throw error;
    return { ok: false, reason: "another-piece", ...(await arrivedOf(claimId, id)) };
  }
}

async function putTogether<R extends string>(album: Album<R>, upload: PhotoUpload): Promise<Taken<R>> {
  const keys = pieceKeys(upload);
  const attached = await twoAtATime(async () => {
    const pieces = await Promise.all(keys.map(getObject));
    return pieces.every((piece) => piece !== null) ? album.attach(new Uint8Array(Buffer.concat(pieces))) : null;
  });
  // Another process has put it together meanwhile, or the store has lost a piece: then it begins anew.
  if (!attached) {
    if ((await findUpload(upload.id))?.isDone) return { ok: true, received: upload.bytes, isWhole: true };
    await deleteUpload(upload.id);
    return { ok: false, reason: "another-piece", received: 0, isWhole: false };
  }
  // Once one was removed there is room for it.
  if (!attached.ok && attached.reason === "too-many-photos") return attached;
  if (attached.ok) await finishUpload(upload.id);
  else await deleteUpload(upload.id);
  await Promise.all(keys.map(removeObject));
  return attached.ok ? { ok: true, received: upload.bytes, isWhole: true } : attached;
}
