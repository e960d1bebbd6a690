import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { countFindings, findOpenInspection, listSteps, markInspected } from "@/lib/data/bench-inspections";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { findUnitOnBench } from "@/lib/data/returns";
import { matchSerials } from "@/lib/domain/claims/serials";
import type { finishSchema } from "@/lib/inputs/bench-inspection";
import { auditActor, refuse, type Refusal } from "./refusal";

export type FinishInspectionResult =
  | { ok: true; findings: number }
  | Refusal
  /** No inspection of a unit of this claim is under way. */
  | { ok: false; reason: "not-on-the-bench" }
  | { ok: false; reason: "held-by-another"; holder: string }
  /** Nothing was found and no note says why. */
  | { ok: false; reason: "nothing-found" }
  /** Another serial than the claim's, and nobody has said that it is the unit all the same. */
  | { ok: false; reason: "another-unit" };

/**
 * Ends an inspection: a claim that waited for the unit goes back into review, one that was decided or ended meanwhile
 * stays so. The unit stays on the bench until somebody decides what becomes of it.
 */
export async function finishInspection(actor: StaffActor, claimId: string, { note }: z.output<typeof finishSchema>, now: Date = new Date()): Promise<FinishInspectionResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const unit = await findUnitOnBench(claimId, db);
    const open = unit && (await findOpenInspection(unit.id, db));
    if (!unit || !open) return { ok: false, reason: "not-on-the-bench" };
    if (open.inspectedBy.id !== actor.personId) return { ok: false, reason: "held-by-another", holder: open.inspectedBy.name };
    const serial = matchSerials(unit);
    if (serial === "differs" && !unit.sameUnitAt) return { ok: false, reason: "another-unit" };
    const findings = await countFindings(db, open.id);
    if (findings === 0 && note === "" && (await listSteps(open.id, db)).every(({ typed }) => !typed.note)) return { ok: false, reason: "nothing-found" };
    await markInspected(db, { id: open.id, personId: actor.personId, note, now });
    const by = { actor: auditActor(actor), detail: { findings, serial } };
    const claim = await findClaimToActOn(claimId, db);
    if (claim?.stage === "awaiting_the_unit") await moveClaim(db, claimId, "inspect_unit", by);
    else await appendAudit(db, { ...by, claimId, action: "inspect_late" });
    return { ok: true, findings };
  });
}
