import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { decideSignal, findSignal, isRevisionOf, queueLook, type SignalDecided } from "@/lib/data/signals";
import { isChange } from "@/lib/domain/reporting/signals-acts";
import type { SignalDecision } from "@/lib/inputs/signal";
import { auditActor, refuse, type Refusal } from "./refusal";

export type DecideOnSignalResult =
  | { ok: true }
  | { ok: false; reason: "not-found" | "unknown-revision" }
  /** Somebody else has decided since it was shown. */
  | { ok: false; reason: "decided-meanwhile"; newest: SignalDecided | null };

/** Marks a signal with what was done about it. It can be marked anew; every mark stays in its history. */
export async function decideOnSignal(actor: StaffActor, signalId: string, { act, note, holdsFrom, revision, version }: SignalDecision, now: Date = new Date()): Promise<DecideOnSignalResult | Refusal> {
  const refused = await refuse(actor, "decide on signals");
  if (refused) return refused;
  return inTransaction(async (db): Promise<DecideOnSignalResult> => {
    const signal = await findSignal(signalId, db);
    if (!signal) return { ok: false, reason: "not-found" };
    const kitRevisionId = act === "revision_shipped" ? (revision ?? null) : null;
    if (kitRevisionId !== null && !(await isRevisionOf(db, kitRevisionId, signal.scope.kitId))) return { ok: false, reason: "unknown-revision" };
    const decision = { act, note, holdsFrom: isChange(act) ? (holdsFrom ?? null) : null, kitRevisionId, personId: actor.personId, at: now };
    if (!(await decideSignal(db, signalId, version, decision))) return { ok: false, reason: "decided-meanwhile", newest: (await findSignal(signalId, db))?.decisions[0] ?? null };
    await appendAudit(db, { actor: auditActor(actor), action: "decide_on_signal", detail: { signalId, act, number: version + 1, reason: note } });
    if (isChange(act)) await queueLook(db, false);
    return { ok: true };
  });
}
