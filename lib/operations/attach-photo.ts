import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findDraft } from "@/lib/data/drafts";
import { findClaimForCustomer } from "@/lib/data/claims-by-customer";
import { countPhotos, insertPhoto } from "@/lib/data/photos";
import { countTry } from "@/lib/data/rate-limit";
import { observerOf } from "@/lib/domain/intake/answers";
import { MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { type KeepPhotoResult, keepPhoto } from "./keep-photo";

export type AttachPhotoResult = KeepPhotoResult<"too-many-photos">;

/** Counts an upload, before any of it is read; false when the caller must wait. */
export function mayUpload(caller: string): Promise<boolean> {
  return countTry("upload", caller);
}

/** Attaches a photo to the customer's own claim, a draft or a filed one. */
export async function attachPhoto(actor: CustomerActor, bytes: Uint8Array): Promise<AttachPhotoResult> {
  const { claimId } = actor;
  // Before anything is decoded; whether there is room still is seen again once the claim is locked.
  if ((await countPhotos(claimId)) >= MOST_PHOTOS) return { ok: false, reason: "too-many-photos" };
  const draft = await findDraft(claimId);
  const takenBy = draft ? (observerOf(draft.answers) ?? "customer") : ((await findClaimForCustomer(claimId))?.filedBy ?? "customer");
  return keepPhoto(claimId, bytes, async (db, picture) => {
    if ((await countPhotos(claimId, db)) >= MOST_PHOTOS) return { ok: false, reason: "too-many-photos" };
    const { id } = await insertPhoto(db, { ...picture, subject: "other", takenBy });
    // A draft may still run out and be removed; the audit trail keeps what it names for good.
    if (!draft) await appendAudit(db, { actor: { kind: "customer" }, action: "attach_photo", claimId, detail: { photoId: id } });
    return { ok: true, photoId: id };
  });
}
