import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { insertFinding } from "@/lib/data/findings";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { findUnitOnBench, insertBenchInspection, markDispositioned } from "@/lib/data/returns";
import { compareSerials, SAME_UNIT } from "@/lib/domain/claims/serials";
import { typedFinding } from "@/lib/domain/intake/typed-finding";
import { benchFields, benchFindings } from "@/lib/inputs/returns";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { toStaff } from "@/lib/messages/words";
import { rankClaim } from "./rank-claim";
import { auditActor, refuse, type Refusal } from "./refusal";

export type RecordBenchInspectionResult =
  | { ok: true; findings: number }
  | Refusal
  /** No such claim, or none of its units is here, or it was inspected meanwhile. */
  | { ok: false; reason: "not-on-the-bench" }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/**
 * Keeps what the bench found and says what becomes of the unit. The findings join the evidence, the ranking moves, and
 * a claim that waited for the unit goes back into review; a claim that was decided or ended meanwhile stays so. A unit with another serial than the
 * claim's only speaks of it once somebody says that it is the one all the same.
 */
export async function recordBenchInspection(actor: StaffActor, claimId: string, form: FormData, now: Date = new Date()): Promise<RecordBenchInspectionResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const [unit, edition] = await Promise.all([findUnitOnBench(claimId), loadEditionInForce()]);
  if (!unit) return { ok: false, reason: "not-on-the-bench" };
  const fields = benchFields(edition, toStaff);
  const typed = typedValues(fields, form);
  const parsed = screenSchema(fields, toStaff).safeParse(typed);
  const values = parsed.success ? parsed.data : typed;
  const isWritten = (name: string) => (values[name] ?? "").trim() !== "";
  const codes = new Set(benchFindings(edition).map(({ code }) => code));
  // A question may be skipped.
  const looked = fields.filter(({ name }) => codes.has(name) && isWritten(name));

  const messages: Record<string, string> = {};
  const serial = compareSerials(unit.serialSeen, unit.serialExpected);
  if (serial === "differs" && form.get(SAME_UNIT) !== "yes") messages[SAME_UNIT] = "Tick this if you know that it is the unit of this claim, or correct the serial";
  if (!isWritten("note")) {
    if (serial === "differs") messages.note = "Write how you know that it is the unit of this claim";
    else if (looked.length === 0) messages.note = "Record one finding at least, or say here why there is none";
  }
  if (!parsed.success) return { ok: false, reason: "refused", messages: { ...messages, ...messagesOf(parsed.error) } };
  if (Object.keys(messages).length > 0) return { ok: false, reason: "refused", messages };
  const { note = "" } = parsed.data;
  const found = looked.map((field) => typedFinding(field, parsed.data));

  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    if (!(await markDispositioned(db, unit))) return { ok: false, reason: "not-on-the-bench" };
    const inspection = await insertBenchInspection(db, { returnId: unit.id, inspectedById: actor.personId, note, inspectedAt: now });
    for (const finding of found) await insertFinding(db, { ...finding, claimId, observer: "bench", personId: actor.personId, benchInspectionId: inspection.id });
    if (found.length > 0) await rankClaim(db, claimId);
    const claim = await findClaimToActOn(claimId, db);
    const by = { actor: auditActor(actor), detail: { findings: found.map(({ code }) => code), serial } };
    if (claim?.stage === "awaiting_the_unit") await moveClaim(db, claimId, "inspect_unit", by);
    else await appendAudit(db, { ...by, claimId, action: "inspect_late" });
    return { ok: true, findings: found.length };
  });
}
