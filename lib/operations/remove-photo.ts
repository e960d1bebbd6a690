import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { inTransaction } from "@/lib/data/client";
import { findDraft } from "@/lib/data/drafts";
import { lockClaim } from "@/lib/data/lock-claim";
import { deleteDraftPhoto, findPhotoForCustomer } from "@/lib/data/photos";
import { removeObject } from "@/lib/files/store";

export type RemovePhotoResult = { ok: true } | { ok: false; reason: "already-filed" | "not-found" };

/** Takes a photo off the customer's own draft. After filing it is evidence and stays. */
export async function removePhoto(actor: CustomerActor, photoId: string): Promise<RemovePhotoResult> {
  const photo = await findPhotoForCustomer(actor.claimId, photoId);
  if (!photo) return { ok: false, reason: "not-found" };
  const isRemoved = await inTransaction(async (db) => {
    await lockClaim(db, actor.claimId);
    return deleteDraftPhoto(db, actor.claimId, photo.id);
  });
  if (!isRemoved) return { ok: false, reason: (await findDraft(actor.claimId)) ? "not-found" : "already-filed" };
  await Promise.all([removeObject(photo.storageKey), removeObject(`${photo.storageKey}-small`)]);
  return { ok: true };
}
