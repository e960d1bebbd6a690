import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findOpenInspection, insertInspection, updateInspector } from "@/lib/data/bench-inspections";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveReturn } from "@/lib/data/move-return";
import { findUnitOnBench } from "@/lib/data/returns";
import { auditActor, refuse, type Refusal } from "./refusal";

export type OpenInspectionResult =
  | { ok: true }
  | Refusal
  /** No such claim, or none of its units is here. */
  | { ok: false; reason: "not-on-the-bench" }
  /** Another person is at it. */
  | { ok: false; reason: "held-by-another"; holder: string };

/** Begins the inspection of a claim's unit, or goes on with one's own on another device. */
export async function openInspection(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<OpenInspectionResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  return inTransaction(async (db) => {
    // Of two who begin at once the second finds the inspection of the first.
    await lockClaim(db, claimId);
    const unit = await findUnitOnBench(claimId, db);
    if (!unit) return { ok: false, reason: "not-on-the-bench" };
    const open = await findOpenInspection(unit.id, db);
    if (open) return open.inspectedBy.id === actor.personId ? { ok: true } : { ok: false, reason: "held-by-another", holder: open.inspectedBy.name };
    await insertInspection(db, { returnId: unit.id, inspectedById: actor.personId, startedAt: now });
    if ((await moveReturn(db, unit.id, "put_on_bench")).ok) await appendAudit(db, { actor: auditActor(actor), action: "return_on_the_bench", claimId });
    return { ok: true };
  });
}

/** Goes on with the inspection that another person began: what they kept stays, and they are told when they save. */
export async function takeOverInspection(actor: StaffActor, claimId: string): Promise<{ ok: true } | Refusal | { ok: false; reason: "not-on-the-bench" }> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const unit = await findUnitOnBench(claimId, db);
    const open = unit && (await findOpenInspection(unit.id, db));
    if (!open) return { ok: false, reason: "not-on-the-bench" };
    if (open.inspectedBy.id === actor.personId) return { ok: true };
    await updateInspector(db, { id: open.id, from: open.inspectedBy.id, to: actor.personId });
    await appendAudit(db, { actor: auditActor(actor), action: "take_over_inspection", claimId, detail: { from: open.inspectedBy.id } });
    return { ok: true };
  });
}
