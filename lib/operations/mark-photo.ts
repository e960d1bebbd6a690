import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { findMark, findMarkedPhoto, insertMark, removeMark } from "@/lib/data/photo-marks";
import type { PhotoMarkInput } from "@/lib/inputs/photo-mark";
import { auditActor, type Refusal, refuse } from "./refusal";

export type MarkPhotoResult = { ok: true; number: number } | Refusal | { ok: false; reason: "not-found" };

/** Puts a numbered mark with a word on a photo that the claim shows. Two at once get two numbers. */
export async function markPhoto(actor: StaffActor, claimId: string, photoId: string, mark: PhotoMarkInput): Promise<MarkPhotoResult> {
  const refused = await refuse(actor, "mark a photo", claimId);
  if (refused) return refused;
  if (!(await findMarkedPhoto(claimId, photoId))) return { ok: false, reason: "not-found" };
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const { number } = await insertMark(db, { ...mark, photoId, madeById: actor.personId });
    await appendAudit(db, { actor: auditActor(actor), action: "mark_photo", claimId, detail: { photoId, number } });
    return { ok: true, number };
  });
}

export type RemoveMarkResult = { ok: true; photoId: string } | Refusal | { ok: false; reason: "not-found" | "somebody-elses" };

/** Takes a mark off a photo: one's own, or anybody's for an administrator. */
export async function removePhotoMark(actor: StaffActor, claimId: string, markId: string, now: Date = new Date()): Promise<RemoveMarkResult> {
  const refused = await refuse(actor, "mark a photo", claimId);
  if (refused) return refused;
  const mark = await findMark(claimId, markId);
  if (!mark) return { ok: false, reason: "not-found" };
  if (mark.madeById !== actor.personId && actor.role !== "admin") return { ok: false, reason: "somebody-elses" };
  return inTransaction(async (db) => {
    if (!(await removeMark(db, markId, actor.personId, now))) return { ok: false, reason: "not-found" };
    await appendAudit(db, { actor: auditActor(actor), action: "remove_mark", claimId, detail: { photoId: mark.photoId, number: mark.number } });
    return { ok: true, photoId: mark.photoId };
  });
}
