import "server-only";
import { randomUUID } from "node:crypto";
import { type Db, inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { findPhotoByContent, type PhotoToInsert, pictureKeys } from "@/lib/data/photos";
import { type PhotoRefusal, preparePhoto } from "@/lib/files/photo";
import { putObject, removeObject } from "@/lib/files/store";

/** `photoId` is the earlier one when the same picture was sent before. */
export type KeepPhotoResult<R extends string> = { ok: true; photoId: string } | { ok: false; reason: R | PhotoRefusal };

type Picture = Pick<PhotoToInsert, "claimId" | "storageKey" | "width" | "height" | "bytes" | "sha256">;

/**
 * Encodes a photo anew and keeps it with a claim, the same picture once however often it is sent.
 *
 * @param insert adds the photo to the locked claim and returns its id, or says why it may not
 */
export async function keepPhoto<R extends string>(claimId: string, sent: Uint8Array, insert: (db: Db, picture: Picture) => Promise<{ ok: true; photoId: string } | { ok: false; reason: R }>): Promise<KeepPhotoResult<R>> {
  const prepared = await preparePhoto(sent);
  if (!prepared.ok) return prepared;
  const { width, height, sha256, full, small } = prepared;
  const same = await findPhotoByContent(claimId, sha256);
  if (same) return { ok: true, photoId: same.id };

  const storageKey = `claims/${claimId}/${randomUUID()}`;
  const [fullKey, smallKey] = pictureKeys(storageKey);
  await Promise.all([putObject(fullKey, full, "image/jpeg"), putObject(smallKey, small, "image/jpeg")]);
  const kept = await inTransaction(async (db): Promise<KeepPhotoResult<R> & { isNew?: true }> => {
    // Several photos come in at once, the same one perhaps twice.
    await lockClaim(db, claimId);
    const other = await findPhotoByContent(claimId, sha256, db);
    if (other) return { ok: true, photoId: other.id };
    const inserted = await insert(db, { claimId, storageKey, width, height, bytes: full.length, sha256 });
    return inserted.ok ? { ...inserted, isNew: true } : inserted;
  });
  if (kept.ok && kept.isNew) return { ok: true, photoId: kept.photoId };
  // Nobody's objects.
  await Promise.all([removeObject(fullKey), removeObject(smallKey)]);
  return kept;
}
