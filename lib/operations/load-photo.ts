import "server-only";
import type { Actor, CustomerActor } from "@/lib/access/actors";
import { findPhotoForCustomer, findShownPhoto, listOwnPhotos } from "@/lib/data/photos";
import { may } from "@/lib/domain/claims/permissions";
import { getObject } from "@/lib/files/store";

export type LoadPhotoResult = { ok: true; jpeg: Uint8Array | null } | { ok: false; reason: "not-found" };

/**
 * The picture of one photo: for a customer one they took for the own claim or one that goes with a letter to them, for staff
 * who may see claims any claim's. What is not theirs is not told from what does not exist.
 *
 * @param claimId the claim the photo is looked for in
 * @param isHeld only whether it still may be seen is asked: the picture is there already, and is not read again
 */
export async function loadPhoto(actor: Actor, claimId: string, photoId: string, size: "full" | "small", isHeld = false): Promise<LoadPhotoResult> {
  const isAllowed = actor.kind === "customer" ? actor.claimId === claimId : may(actor.role, "see a claim");
  const find = actor.kind === "customer" ? findPhotoForCustomer : findShownPhoto;
  const photo = isAllowed ? await find(claimId, photoId) : null;
  if (photo && isHeld) return { ok: true, jpeg: null };
  const jpeg = photo && (await getObject(size === "small" ? `${photo.storageKey}-small` : photo.storageKey));
  return jpeg ? { ok: true, jpeg } : { ok: false, reason: "not-found" };
}

/** The photos that the customer has taken for the own claim, oldest first. */
export async function loadMyPhotos(actor: CustomerActor): Promise<{ id: string; width: number; height: number }[]> {
  return (await listOwnPhotos(actor.claimId)).map(({ id, width, height }) => ({ id, width, height }));
}
