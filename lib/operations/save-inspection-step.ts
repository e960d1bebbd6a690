import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findLeader, findOpenInspection, keepStep, type KeptStep, listSteps, type RankingMove, type TypedStep } from "@/lib/data/bench-inspections";
import { type Db, inTransaction } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { type FindingToInsert, insertFinding } from "@/lib/data/findings";
import { lockClaim } from "@/lib/data/lock-claim";
import { type ExpectedUnit, findUnitOnBench, updateReturn, updateSerialsSeen } from "@/lib/data/returns";
import { type BenchStep, benchSteps, CLOSED_OUTLET, observerAtBench, type StepFindings } from "@/lib/domain/claims/bench-steps";
import { matchSerials, SAME_UNIT } from "@/lib/domain/claims/serials";
import type { Edition, FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import { type IntakeField, isShown, unitField } from "@/lib/domain/intake/fields";
import { DONT_KNOW } from "@/lib/domain/intake/screens";
import { typedFinding } from "@/lib/domain/intake/typed-finding";
import { confirmField } from "@/lib/domain/intake/unusual-number";
import { cannotTell, stepFields } from "@/lib/inputs/bench-inspection";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { toStaff } from "@/lib/messages/words";
import { rankClaim } from "./rank-claim";
import { auditActor, refuse, type Refusal } from "./refusal";

export type SaveStepResult =
  | { ok: true; recorded: readonly string[] }
  | Refusal
  /** No such claim or step, or no inspection of its unit is under way. */
  | { ok: false; reason: "not-on-the-bench" }
  /** Another person has taken the inspection over. */
  | { ok: false; reason: "held-by-another"; holder: string }
  /** The unit has another serial than the claim's, and nobody has said that it is the one all the same. */
  | { ok: false; reason: "another-unit" }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/**
 * Keeps one step of an inspection as it is done: what was found joins the evidence at once and the causes are ranked
 * anew. What was not changed since the step was kept last is not recorded again, so that a form sent twice counts once.
 */
export async function saveInspectionStep(actor: StaffActor, claimId: string, step: BenchStep, form: FormData, now: Date = new Date()): Promise<SaveStepResult> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const edition = await loadEditionInForce();
  const asked = benchSteps(edition).find((one) => one.step === step);
  if (!asked) return { ok: false, reason: "not-on-the-bench" };
  const fields = stepFields(asked, toStaff);
  const isSkipped = form.get("go") === "skip";
  const parsed = screenSchema(fields, toStaff).safeParse(isSkipped ? {} : typedWithTicks(fields, form));
  if (!parsed.success && !isSkipped) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const typed = parsed.success ? shownOnly(fields, { ...parsed.data, ...ticksOf(fields, form) }) : {};

  return withInspection(actor, claimId, async (db, unit, inspectionId, kept) => {
    const keep = (moved: RankingMove | null) => keepStep(db, { inspectionId, step, isSkipped, typed, moved, savedById: actor.personId, savedAt: now });
    const before = kept.find((other) => other.step === step);
    if (isSkipped) {
      if (!before) await keep(null);
      return { ok: true, recorded: [] };
    }
    if (step === "identity") {
      if (form.get(SAME_UNIT) === "yes" && !typed.note) return { ok: false, reason: "refused", messages: { note: "Write how you know that it is the unit of this claim" } };
      await keep(null);
      return identify(db, actor, claimId, unit, typed, form.get(SAME_UNIT) === "yes", now);
    }
    if (matchSerials(unit) === "differs" && !unit.sameUnitAt) return { ok: false, reason: "another-unit" };
    const found = changedFindings(asked, fields, edition, typed, before?.typed ?? {});
    for (const finding of found) await insertFinding(db, { ...finding, claimId, personId: actor.personId, benchInspectionId: inspectionId });
    await keep(found.length > 0 ? await rankAndCompare(db, claimId) : null);
    const recorded = found.map(({ code }) => code);
    if (recorded.length > 0) await appendAudit(db, { actor: auditActor(actor), action: "record_at_bench", claimId, detail: { step, findings: recorded } });
    return { ok: true, recorded };
  });
}

type Work = (db: Db, unit: ExpectedUnit, inspectionId: string, kept: readonly KeptStep[]) => Promise<SaveStepResult>;

/** Works on the inspection that this person has under way, one at a time. */
function withInspection(actor: StaffActor, claimId: string, work: Work): Promise<SaveStepResult> {
  return inTransaction(async (db): Promise<SaveStepResult> => {
    await lockClaim(db, claimId);
    const unit = await findUnitOnBench(claimId, db);
    const open = unit && (await findOpenInspection(unit.id, db));
    if (!unit || !open) return { ok: false, reason: "not-on-the-bench" };
    if (open.inspectedBy.id !== actor.personId) return { ok: false, reason: "held-by-another", holder: open.inspectedBy.name };
    return work(db, unit, open.id, await listSteps(open.id, db));
  });
}

/** What a step's form posts; a number under its tick "cannot tell" is none. */
function typedWithTicks(fields: readonly IntakeField[], form: FormData): Record<string, string> {
  const typed = typedValues(fields, form);
  for (const { name } of fields.filter((field) => isTicked(field, form))) for (const part of [name, unitField(name), confirmField(name)]) typed[part] = "";
  return typed;
}

const isTicked = ({ kind, name }: IntakeField, form: FormData) => kind === "number" && form.get(cannotTell(name)) === "yes";

const ticksOf = (fields: readonly IntakeField[], form: FormData) => Object.fromEntries(fields.filter((field) => isTicked(field, form)).map(({ name }) => [cannotTell(name), "yes"]));

/** Only what holds: an answer to a question that is not asked any more goes. */
function shownOnly(fields: readonly IntakeField[], typed: TypedStep): TypedStep {
  const hidden = new Set(fields.filter((field) => !isShown(field, typed)).map(({ name }) => name));
  return Object.fromEntries(Object.entries(typed).filter(([name, value]) => value !== "" && !hidden.has(name)));
}

/** The plate, held against the claim: the serial that is read on it is kept with the return. */
async function identify(db: Db, actor: StaffActor, claimId: string, unit: ExpectedUnit, typed: TypedStep, isSameUnit: boolean, now: Date): Promise<SaveStepResult> {
  const read = typed.plate === "other" ? (typed.serialRead ?? null) : typed.plate === "same" ? (unit.serialSeen ?? unit.serialExpected) : unit.serialSeen;
  const serial = matchSerials({ ...unit, serialSeen: read });
  if (read !== unit.serialSeen) {
    await updateSerialsSeen(db, unit.id, { serialSeen: read });
    await appendAudit(db, { actor: auditActor(actor), action: "correct_serial", claimId, detail: { serial } });
  }
  if (serial !== "differs" || unit.sameUnitAt) return { ok: true, recorded: [] };
  if (!isSameUnit) return { ok: false, reason: "another-unit" };
  const reason = typed.note ?? "";
  await updateReturn(db, unit.id, { sameUnitAt: now, sameUnitById: actor.personId, sameUnitNote: reason });
  await appendAudit(db, { actor: auditActor(actor), action: "take_for_same_unit", claimId, detail: { reason } });
  return { ok: true, recorded: [] };
}

type Found = Omit<FindingToInsert, "claimId" | "personId" | "benchInspectionId">;

/** The findings whose answer is another than the step was kept with. One that is cleared is taken back as not known. */
function changedFindings({ step, findings }: StepFindings, fields: readonly IntakeField[], edition: Edition, typed: TypedStep, before: TypedStep): Found[] {
  const found = findings.flatMap((definition): Found[] => {
    const field = fields.find(({ name }) => name === definition.code);
    const observer = observerAtBench(definition);
    if (!field || !observer) return [];
    const parts = [field.name, unitField(field.name), cannotTell(field.name)];
    const isWritten = (values: TypedStep) => Boolean(values[field.name]) || values[cannotTell(field.name)] === "yes";
    if (parts.every((name) => (typed[name] ?? "") === (before[name] ?? "")) || (!isWritten(typed) && !isWritten(before))) return [];
    if (!typed[field.name]) return [{ code: definition.code, observer, answer: DONT_KNOW, measured: null }];
    return [{ ...typedFinding(field, typed), observer }];
  });
  return step === "outlet" ? [...found, ...closedOutlet(edition.findings, typed, before)] : found;
}

/** A hole that sealant closes is told of the drain, in the words the knowledge has for it. */
function closedOutlet(findings: readonly FindingDefinition[], typed: TypedStep, before: TypedStep): Found[] {
  const { field, value, finding, answer } = CLOSED_OUTLET;
  const definition = findings.find(({ code }) => code === finding);
  const observer = definition ? observerAtBench(definition) : null;
  const isClosed = (values: TypedStep) => values[field] === value;
  if (!observer || isClosed(typed) === isClosed(before)) return [];
  return [{ code: finding, observer, answer: isClosed(typed) ? answer : DONT_KNOW, measured: null, note: "seen at the outlet of the unit" }];
}

/** Ranks the claim anew and says from where to where it moved. */
async function rankAndCompare(db: Db, claimId: string): Promise<RankingMove> {
  const before = await findLeader(db, claimId);
  await rankClaim(db, claimId);
  const after = await findLeader(db, claimId);
  return { unitBefore: before.unitProbability, leaderBefore: before.leaderCause, unitAfter: after.unitProbability, leaderAfter: after.leaderCause };
}
