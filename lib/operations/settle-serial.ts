import "server-only";
import { randomBytes } from "node:crypto";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { dropInspection } from "@/lib/data/bench-inspections";
import { type Db, inTransaction } from "@/lib/data/client";
import { findParcel, takeParcelFromReturn } from "@/lib/data/custody";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveReturn } from "@/lib/data/move-return";
import { findReturn, updateReturn } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { makeReference } from "@/lib/domain/claims/reference";
import { isHere } from "@/lib/domain/claims/return-lifecycle";
import { matchSerials } from "@/lib/domain/claims/serials";
import type { serialDecisionSchema } from "@/lib/inputs/custody";
import { rankClaim } from "./rank-claim";
import { auditActor, refuse, type Refusal } from "./refusal";

export type SettleSerialResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "not-in-doubt" };

/** The unit that came under another serial is the one of the claim all the same: what the bench finds counts from now on. */
export async function takeForSameUnit(actor: StaffActor, { returnId, note }: z.output<typeof serialDecisionSchema>, now: Date = new Date()): Promise<SettleSerialResult> {
  const refused = await refuse(actor, "authorise a return");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const doubted = await lockDoubted(db, returnId);
    if (!doubted.ok) return doubted;
    const { claimId } = doubted.unit;
    await updateReturn(db, returnId, { sameUnitAt: now, sameUnitById: actor.personId, sameUnitNote: note });
    await appendAudit(db, { actor: auditActor(actor), action: "take_for_same_unit", claimId, detail: { reason: note } });
    return { ok: true };
  });
}

/**
 * It is another unit: it becomes a parcel that waits for a decision, with all the places it has been, and the unit of the
 * claim is awaited again with a new last day. An inspection that was under way was of the other unit, and is dropped.
 */
export async function setUnitAside(actor: StaffActor, { returnId, note }: z.output<typeof serialDecisionSchema>, now: Date = new Date()): Promise<SettleSerialResult> {
  const refused = await refuse(actor, "authorise a return");
  if (refused) return refused;
  const { returnWithinDays } = await loadSettings();
  return inTransaction(async (db) => {
    const doubted = await lockDoubted(db, returnId);
    if (!doubted.ok) return doubted;
    const { claimId, serialSeen } = doubted.unit;
    const parcel = await findParcel({ returnId }, db);
    const expiresAt = new Date(now.getTime() + returnWithinDays * 86_400_000);
    if (!parcel || !(await moveReturn(db, returnId, "set_aside", { receivedAt: null, serialSeen: null, otherSerialSeen: null, expiresAt, remindedAt: null })).ok) return { ok: false, reason: "not-in-doubt" };
    await takeParcelFromReturn(db, parcel.id, { number: `P-${makeReference(randomBytes(64))}`, reason: "other_unit", claimId, holds: note, serial: serialSeen });
    if (await dropInspection(db, returnId, now)) await rankClaim(db, claimId);
    await appendAudit(db, { actor: auditActor(actor), action: "set_unit_aside", claimId, detail: { reason: note } });
    return { ok: true };
  });
}

async function lockDoubted(db: Db, returnId: string) {
  const claimId = (await findReturn(db, { id: returnId }))?.claimId;
  if (!claimId) return { ok: false, reason: "not-found" } as const;
  await lockClaim(db, claimId);
  const unit = await findReturn(db, { id: returnId });
  const isDoubted = unit && isHere(unit.state) && unit.sameUnitAt === null && matchSerials(unit) === "differs";
  return isDoubted ? ({ ok: true, unit } as const) : ({ ok: false, reason: "not-in-doubt" } as const);
}
