import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findOpenInspection } from "@/lib/data/bench-inspections";
import { countBenchPhotos, insertPhoto } from "@/lib/data/photos";
import { findUnitOnBench } from "@/lib/data/returns";
import { type BenchStep, MOST_BENCH_PHOTOS } from "@/lib/domain/claims/bench-steps";
import { type KeepPhotoResult, keepPhoto } from "./keep-photo";
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

export type AttachBenchPhotoResult = KeepPhotoResult<"too-many-photos" | "not-on-the-bench"> | Refusal;

/** Keeps a photo taken at a step of the inspection that is under way. Like a customer's it is encoded anew, without place and time. */
export async function attachBenchPhoto(actor: StaffActor, claimId: string, step: BenchStep, bytes: Uint8Array): Promise<AttachBenchPhotoResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const unit = await findUnitOnBench(claimId);
  if (!unit || !(await findOpenInspection(unit.id))) return { ok: false, reason: "not-on-the-bench" };
  return keepPhoto(claimId, bytes, async (db, picture) => {
    const open = await findOpenInspection(unit.id, db);
    if (!open) return { ok: false, reason: "not-on-the-bench" };
    if ((await countBenchPhotos(claimId, db)) >= MOST_BENCH_PHOTOS) return { ok: false, reason: "too-many-photos" };
    const { id } = await insertPhoto(db, { ...picture, subject: SUBJECTS[step], takenBy: "bench", benchInspectionId: open.id, benchStep: step });
    await appendAudit(db, { actor: auditActor(actor), action: "attach_photo", claimId, detail: { photoId: id, step } });
    return { ok: true, photoId: id };
  });
}
