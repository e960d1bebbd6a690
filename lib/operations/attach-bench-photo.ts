import "server-only";
import { randomUUID } from "node:crypto";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findOpenInspection } from "@/lib/data/bench-inspections";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { countBenchPhotos, findPhotoByContent, insertPhoto } from "@/lib/data/photos";
import { findUnitOnBench } from "@/lib/data/returns";
import { type BenchStep, MOST_BENCH_PHOTOS } from "@/lib/domain/claims/bench-steps";
import { type PhotoRefusal, preparePhoto } from "@/lib/files/photo";
import { putObject, removeObject } from "@/lib/files/store";
import { auditActor, refuse, type Refusal } from "./refusal";

/** The part of the oil path that a photo of a step shows. */
const SUBJECTS: Readonly<Record<BenchStep, string>> = {
  identity: "unit",
  outside: "unit",
  outlet: "drain",
  fore_and_aft: "shaft",
  radial: "shaft",
  rig: "unit",
  rings: "shaft",
  wheels: "compressor",
  oilways: "shaft",
  other: "other",
};

export type AttachBenchPhotoResult =
  /** `photoId` is the earlier one when the same picture was sent before. */
  | { ok: true; photoId: string }
  | Refusal
  | { ok: false; reason: PhotoRefusal | "too-many-photos" | "not-on-the-bench" };

/** Keeps a photo taken at a step of the inspection that is under way. Like a customer's it is encoded anew, without place and time. */
export async function attachBenchPhoto(actor: StaffActor, claimId: string, step: BenchStep, bytes: Uint8Array): Promise<AttachBenchPhotoResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const unit = await findUnitOnBench(claimId);
  if (!unit || !(await findOpenInspection(unit.id))) return { ok: false, reason: "not-on-the-bench" };
  const prepared = await preparePhoto(bytes);
  if (!prepared.ok) return prepared;
  const { width, height, sha256, full, small } = prepared;
  const same = await findPhotoByContent(claimId, sha256);
  if (same) return { ok: true, photoId: same.id };

  const storageKey = `claims/${claimId}/${randomUUID()}`;
  await Promise.all([putObject(storageKey, full, "image/jpeg"), putObject(`${storageKey}-small`, small, "image/jpeg")]);
  const kept = await inTransaction(async (db): Promise<AttachBenchPhotoResult & { isNew?: true }> => {
    await lockClaim(db, claimId);
    const other = await findPhotoByContent(claimId, sha256, db);
    if (other) return { ok: true, photoId: other.id };
    const open = await findOpenInspection(unit.id, db);
    if (!open) return { ok: false, reason: "not-on-the-bench" };
    if ((await countBenchPhotos(claimId, db)) >= MOST_BENCH_PHOTOS) return { ok: false, reason: "too-many-photos" };
    const { id } = await insertPhoto(db, { claimId, subject: SUBJECTS[step], storageKey, width, height, bytes: full.length, sha256, takenBy: "bench", benchInspectionId: open.id, benchStep: step });
    await appendAudit(db, { actor: auditActor(actor), action: "attach_photo", claimId, detail: { photoId: id, step } });
    return { ok: true, photoId: id, isNew: true };
  });
  if (kept.ok && kept.isNew) return { ok: true, photoId: kept.photoId };
  // Nobody's objects.
  await Promise.all([removeObject(storageKey), removeObject(`${storageKey}-small`)]);
  return kept;
}
