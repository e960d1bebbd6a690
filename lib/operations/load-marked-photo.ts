import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { findMarkedPhoto } from "@/lib/data/photo-marks";
import { listShownPhotos } from "@/lib/data/photos";
import { loadSettings } from "@/lib/data/settings";
import { may } from "@/lib/domain/claims/permissions";
import { type Refusal, refuse } from "./refusal";

export interface MarkedPhoto {
  ok: true;
  reference: string;
  photo: NonNullable<Awaited<ReturnType<typeof findMarkedPhoto>>>;
  /** Its place among the photos of the claim, from 1. */
  place: number;
  of: number;
  before: string | null;
  after: string | null;
  mayMark: boolean;
  /** Ids of the marks this person may take away. */
  removable: readonly string[];
  timeZone: string;
}

/** One photo of a claim, large, with its marks and its neighbours. */
export async function loadMarkedPhoto(actor: StaffActor, claimId: string, photoId: string): Promise<MarkedPhoto | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [claim, photo, photos, { timeZone }] = await Promise.all([findClaimToActOn(claimId), findMarkedPhoto(claimId, photoId), listShownPhotos(claimId), loadSettings()]);
  if (!claim || !photo) return { ok: false, reason: "not-found" };
  const index = photos.findIndex(({ id }) => id === photoId);
  const mayMark = may(actor.role, "mark a photo");
  return {
    ok: true,
    reference: claim.reference,
    photo,
    place: index + 1,
    of: photos.length,
    before: photos[index - 1]?.id ?? null,
    after: photos[index + 1]?.id ?? null,
    mayMark,
    removable: photo.marks.filter(({ madeBy }) => mayMark && (madeBy.id === actor.personId || actor.role === "admin")).map(({ id }) => id),
    timeZone,
  };
}
