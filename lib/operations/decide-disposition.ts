import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findUnitToDispose, insertDisposition, listEvidence, type UnitToDisposeOf } from "@/lib/data/dispositions";
import { lockClaim } from "@/lib/data/lock-claim";
import { loadSettings } from "@/lib/data/settings";
import { type DispositionDoubt, dispositionDoubts, type UnitToDispose } from "@/lib/domain/claims/dispositions";
import { may } from "@/lib/domain/claims/permissions";
import type { dispositionSchema } from "@/lib/inputs/bench-inspection";
import { auditActor, refuse, type Refusal } from "./refusal";

export type DecideDispositionResult =
  | { ok: true }
  | Refusal
  /** No unit of this claim came in, or another one than was seen. */
  | { ok: false; reason: "not-here" }
  /** An inspection of it is under way. */
  | { ok: false; reason: "on-the-bench" }
  /** Somebody decided meanwhile. */
  | { ok: false; reason: "changed-meanwhile" }
  | { ok: false; reason: "past-day" }
  /** It needs a reason. */
  | { ok: false; reason: "doubted"; doubts: readonly DispositionDoubt[] };

/** Says what becomes of a unit that came in. What is doubtful needs a reason; nothing decided before is lost. */
export async function decideDisposition(actor: StaffActor, claimId: string, { returnId, kind, keepUntil, reason, seen }: z.output<typeof dispositionSchema>, now: Date = new Date()): Promise<DecideDispositionResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const today = dayIn((await loadSettings()).timeZone, now);
  if (kind === "held_as_evidence" && keepUntil < today) return { ok: false, reason: "past-day" };
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const unit = await findUnitToDispose(claimId, db);
    if (unit?.returnId !== returnId) return { ok: false, reason: "not-here" };
    if (unit.isBeingInspected) return { ok: false, reason: "on-the-bench" };
    if ((unit.dispositions.find(({ supersededAt }) => supersededAt === null)?.id ?? "") !== seen) return { ok: false, reason: "changed-meanwhile" };
    const doubts = dispositionDoubts(kind, asUnit(unit), today);
    if (doubts.length > 0 && reason === "") return { ok: false, reason: "doubted", doubts };
    const decided = { returnId, kind, reason, keepUntil: kind === "held_as_evidence" ? new Date(keepUntil) : null, decidedById: actor.personId, decidedAt: now };
    await insertDisposition(db, decided);
    await appendAudit(db, { actor: auditActor(actor), action: "return_dispositioned", claimId, detail: { kind, ...(reason ? { reason } : {}) } });
    return { ok: true };
  });
}

/** The unit of a claim that came in, and what was decided about it, newest first. */
export async function loadDisposition(actor: StaffActor, claimId: string): Promise<{ ok: true; unit: UnitToDisposeOf; timeZone: string } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const [unit, { timeZone }] = await Promise.all([findUnitToDispose(claimId), loadSettings()]);
  return unit ? { ok: true, unit, timeZone } : { ok: false, reason: "not-found" };
}

/** What is held as evidence, where, and until when. */
export async function loadEvidence(actor: StaffActor, now: Date = new Date()): Promise<({ ok: true; mayDecide: boolean } & Awaited<ReturnType<typeof listEvidence>>) | Refusal> {
  const refused = await refuse(actor, "hand over a unit");
  if (refused) return refused;
  const { timeZone } = await loadSettings();
  return { ok: true, mayDecide: may(actor.role, "inspect a unit"), ...(await listEvidence(new Date(dayIn(timeZone, now)))) };
}

function asUnit({ isInspected, attribution, dispositions }: UnitToDisposeOf): UnitToDispose {
  const standing = dispositions.find(({ supersededAt }) => supersededAt === null);
  return { isInspected, attribution, standing: standing ? { kind: standing.kind, keepUntil: standing.keepUntil?.toISOString().slice(0, 10) ?? null } : null };
}

const dayIn = (timeZone: string, at: Date) => new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" }).format(at);
