import "server-only";
import { randomUUID } from "node:crypto";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findDraft } from "@/lib/data/drafts";
import { findClaimForCustomer } from "@/lib/data/claims-by-customer";
import { lockClaim } from "@/lib/data/lock-claim";
import { countPhotos, findPhotoByContent, insertPhoto } from "@/lib/data/photos";
import { countTry } from "@/lib/data/rate-limit";
import { observerOf } from "@/lib/domain/intake/answers";
import { MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { type PhotoRefusal, preparePhoto } from "@/lib/files/photo";
import { putObject, removeObject } from "@/lib/files/store";

export type AttachPhotoResult =
  /** `photoId` is the earlier one when the same picture was sent before. */
  { ok: true; photoId: string } | { ok: false; reason: PhotoRefusal | "too-many-photos" };

/** Counts an upload, before any of it is read; false when the caller must wait. */
export function mayUpload(caller: string): Promise<boolean> {
  return countTry("upload", caller);
}

/** Attaches a photo to the customer's own claim, a draft or a filed one. */
export async function attachPhoto(actor: CustomerActor, bytes: Uint8Array): Promise<AttachPhotoResult> {
  const { claimId } = actor;
  if ((await countPhotos(claimId)) >= MOST_PHOTOS) return { ok: false, reason: "too-many-photos" };
  const prepared = await preparePhoto(bytes);
  if (!prepared.ok) return prepared;
  const { width, height, sha256, full, small } = prepared;
  const same = await findPhotoByContent(claimId, sha256);
  if (same) return { ok: true, photoId: same.id };

  const draft = await findDraft(claimId);
  const takenBy = draft ? (observerOf(draft.answers) ?? "customer") : ((await findClaimForCustomer(claimId))?.filedBy ?? "customer");
  const storageKey = `claims/${claimId}/${randomUUID()}`;
  await Promise.all([putObject(storageKey, full, "image/jpeg"), putObject(`${storageKey}-small`, small, "image/jpeg")]);
  const kept = await inTransaction(async (db): Promise<AttachPhotoResult & { isNew?: true }> => {
    // Several photos come in at once, the same one perhaps twice.
    await lockClaim(db, claimId);
    const other = await findPhotoByContent(claimId, sha256, db);
    if (other) return { ok: true, photoId: other.id };
    if ((await countPhotos(claimId, db)) >= MOST_PHOTOS) return { ok: false, reason: "too-many-photos" };
    const { id } = await insertPhoto(db, { claimId, subject: "other", storageKey, width, height, bytes: full.length, sha256, takenBy });
    // A draft may still run out and be removed; the audit trail keeps what it names for good.
    if (!draft) await appendAudit(db, { actor: { kind: "customer" }, action: "attach_photo", claimId, detail: { photoId: id } });
    return { ok: true, photoId: id, isNew: true };
  });
  if (kept.ok && kept.isNew) return { ok: true, photoId: kept.photoId };
  // Nobody's objects.
  await Promise.all([removeObject(storageKey), removeObject(`${storageKey}-small`)]);
  return kept;
}
