import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { findDraft } from "@/lib/data/drafts";
import { deletePhoto, findPhoto } from "@/lib/data/photos";
import { removeObject } from "@/lib/files/store";

export type RemovePhotoResult = { ok: true } | { ok: false; reason: "already-filed" | "not-found" };

/** Takes a photo off the customer's own draft. After filing it is evidence and stays. */
export async function removePhoto(actor: CustomerActor, photoId: string): Promise<RemovePhotoResult> {
  if (!(await findDraft(actor.claimId))) return { ok: false, reason: "already-filed" };
  const photo = await findPhoto(actor.claimId, photoId);
  if (!photo) return { ok: false, reason: "not-found" };
  await deletePhoto(actor.claimId, photo.id);
  await Promise.all([removeObject(photo.storageKey), removeObject(`${photo.storageKey}-small`)]);
  return { ok: true };
}
