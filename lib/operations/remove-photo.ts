import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { inTransaction } from "@/lib/data/client";
import { discardObjects } from "@/lib/data/discarded-objects";
import { findDraft } from "@/lib/data/drafts";
import { lockClaim } from "@/lib/data/lock-claim";
import { deleteDraftPhoto, findPhotoForCustomer, pictureKeys } from "@/lib/data/photos";

export type RemovePhotoResult = { ok: true } | { ok: false; reason: "already-filed" | "not-found" };

/** Takes a photo off the customer's own draft. After filing it is evidence and stays. */
export async function removePhoto(actor: CustomerActor, photoId: string): Promise<RemovePhotoResult> {
  const photo = await findPhotoForCustomer(actor.claimId, photoId);
  if (!photo) return { ok: false, reason: "not-found" };
  const isRemoved = await inTransaction(async (db) => {
    await lockClaim(db, actor.claimId);
    if (!(await deleteDraftPhoto(db, actor.claimId, photo.id))) return false;
    await discardObjects(db, pictureKeys(photo.storageKey));
    return true;
  });
  return isRemoved ? { ok: true } : { ok: false, reason: (await findDraft(actor.claimId)) ? "not-found" : "already-filed" };
}
