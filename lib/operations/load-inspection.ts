import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findLeader, findLeaderBefore, findOpenInspection, type KeptStep, listBenchPhotos, listSteps } from "@/lib/data/bench-inspections";
import { database } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { findUnitOnBench, listBenchInspections, type TurboLimits } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { type BenchStep, benchSteps } from "@/lib/domain/claims/bench-steps";
import { type PlayRange, playRange } from "@/lib/domain/claims/play-readings";
import { matchSerials } from "@/lib/domain/claims/serials";
import type { Accuracy, CautionCode, FindingCode, FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import type { IntakeField } from "@/lib/domain/intake/fields";
import { stepFields } from "@/lib/inputs/bench-inspection";
import { toStaff } from "@/lib/messages/words";
import type { ReturnedUnit } from "./load-returns";
import { refuse, type Refusal } from "./refusal";

/** What a reading is held against. */
export interface Gauge {
  code: FindingCode;
  name: string;
  range: PlayRange;
  /** Of the unit's own model, or of the published limits where the model has none. */
  of: string;
  /** One standard deviation at the bench. */
  accuracy: Accuracy;
}

export interface StepOnSheet {
  step: BenchStep;
  fields: readonly IntakeField[];
  cautions: readonly CautionCode[];
  gauges: readonly Gauge[];
  kept: KeptStep | null;
  photos: readonly { id: string }[];
}

/** The chance of a defective unit and what leads, once before and once after. */
export interface Move {
  unitBefore: number | null;
  unitAfter: number | null;
  leaderBefore: string | null;
  leaderAfter: string | null;
}

export interface InspectionSheet {
  ok: true;
  unit: ReturnedUnit;
  steps: readonly StepOnSheet[];
  /** The inspection that is under way; null where none is. */
  open: { holder: string; isMine: boolean; startedAt: Date; move: Move | null } | null;
  /** The newest one that is finished; null where none is. */
  finished: { by: string; at: Date } | null;
  /** How the claim stands now. */
  standing: { unitProbability: number | null; leader: string | null };
  timeZone: string;
}

/** Everything the bench needs of one unit: the steps, what is kept of them, limits, and how far the ranking moved. */
export async function loadInspection(actor: StaffActor, claimId: string): Promise<InspectionSheet | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const unit = await findUnitOnBench(claimId);
  if (!unit) return { ok: false, reason: "not-found" };
  const [edition, open, photos, inspections, leader, { timeZone }] = await Promise.all([loadEditionInForce(), findOpenInspection(unit.id), listBenchPhotos(claimId), listBenchInspections(claimId), findLeader(database(), claimId), loadSettings()]);
  const [kept, before] = open ? await Promise.all([listSteps(open.id), findLeaderBefore(claimId, open.startedAt)]) : [[], null];
  const causeName = (code: string | null) => edition.causes.find((cause) => cause.code === code)?.name ?? null;
  const steps = benchSteps(edition).map((asked): StepOnSheet => {
    const record = kept.find(({ step }) => step === asked.step) ?? null;
    return {
      step: asked.step,
      fields: stepFields(asked, toStaff),
      cautions: atTheBench(asked.findings),
      gauges: asked.findings.flatMap((definition) => gaugeOf(definition, unit.turbo) ?? []),
      kept: record && { ...record, leaderBefore: causeName(record.leaderBefore), leaderAfter: causeName(record.leaderAfter) },
      photos: open ? photos.filter(({ benchInspectionId, benchStep }) => benchInspectionId === open.id && benchStep === asked.step) : [],
    };
  });
  const finished = inspections.find(({ returnId, inspectedAt }) => returnId === unit.id && inspectedAt !== null);
  return {
    ok: true,
    unit: { ...unit, serialMatch: matchSerials(unit), isOverdue: false },
    steps,
    open: open && { holder: open.inspectedBy.name, isMine: open.inspectedBy.id === actor.personId, startedAt: open.startedAt, move: before && kept.some(({ leaderAfter, unitAfter }) => leaderAfter !== null || unitAfter !== null) ? { ...before, leaderBefore: causeName(before.leaderBefore), unitAfter: leader.unitProbability, leaderAfter: causeName(leader.leaderCause) } : null },
    finished: finished?.inspectedAt ? { by: finished.inspectedBy.name, at: finished.inspectedAt } : null,
    standing: { unitProbability: leader.unitProbability, leader: causeName(leader.leaderCause) },
    timeZone,
  };
}

/** Off the vehicle no engine can run and nothing is hot; what stays is what a turning wheel or a rig can do. */
function atTheBench(findings: readonly FindingDefinition[]): CautionCode[] {
  return [...new Set(findings.flatMap(({ cautions }) => cautions))].filter((code) => code === "S3" || code === "S4").sort();
}

function gaugeOf(definition: FindingDefinition, turbo: TurboLimits | null): Gauge | null {
  if (definition.kind !== "measurement" || definition.unit !== "mm") return null;
  const { code, name, limit, accuracy } = definition;
  const own = turbo && playRange(code, turbo);
  if (own && turbo) return { code, name, range: own, of: turbo.name, accuracy: accuracy.bench };
  return limit?.side === "above-is-bad" ? { code, name, range: { min: 0, max: limit.value }, of: "published limits", accuracy: accuracy.bench } : null;
}
