import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { insertFinding } from "@/lib/data/findings";
import { lockClaim } from "@/lib/data/lock-claim";
import { FINDING_SOURCES, type FindingSource, SOURCE_WORDS } from "@/lib/domain/claims/finding-sources";
import { type ClaimStage, QUEUE_STAGES } from "@/lib/domain/claims/stages";
import { checkObservation, type ObservationRefusal } from "@/lib/domain/diagnosis/check-observation";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { DONT_KNOW, findingField } from "@/lib/domain/intake/screens";
import { typedFinding } from "@/lib/domain/intake/typed-finding";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { staffFindingFields } from "@/lib/inputs/staff-finding";
import { toStaff } from "@/lib/messages/words";
import { rankClaim } from "./rank-claim";
import { auditActor, type Refusal, refuse } from "./refusal";

export type RecordFindingResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | ObservationRefusal }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/** Staff record what a technician or the customer told them, or what they saw on a photo. The ranking moves with it. */
export async function recordFinding(actor: StaffActor, claimId: string, code: FindingCode, form: FormData): Promise<RecordFindingResult> {
  const refused = await refuse(actor, "record a finding", claimId);
  if (refused) return refused;
  const [claim, edition] = await Promise.all([findClaimToActOn(claimId), loadEditionInForce()]);
  if (!claim) return { ok: false, reason: "not-found" };
  const definition = edition.findings.find((finding) => finding.code === code);
  if (!definition) return { ok: false, reason: "unknown-finding" };

  const fields = staffFindingFields(definition, toStaff);
  const parsed = screenSchema(fields, toStaff).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const found = typedFinding(findingField(definition, toStaff), parsed.data);
  const source = parsed.data.source as FindingSource;
  const { observer } = FINDING_SOURCES[source];
  const observation: Observation = found.measured === null ? { finding: code, observer, answer: found.answer ?? "" } : { finding: code, observer, measured: found.measured };
  // "Not known" takes an earlier word of the same observer back; the edition lists it among no finding's options.
  if (found.answer !== DONT_KNOW) {
    const check = checkObservation(observation, edition);
    if (!check.ok) return check;
  }
  return inTransaction(async (db): Promise<RecordFindingResult> => {
    // Two at once follow one another, and none comes after a verdict.
    await lockClaim(db, claimId);
    const stage = (await findClaimToActOn(claimId, db))?.stage ?? claim.stage;
    if (!QUEUE_STAGES.some((open) => open === stage)) return { ok: false, reason: "not-legal-here", stage };
    await insertFinding(db, {
      ...found,
      claimId,
      observer,
      note: [SOURCE_WORDS[source], found.note, parsed.data.note].filter(Boolean).join(": "),
      personId: actor.personId,
    });
    await appendAudit(db, { actor: auditActor(actor), action: "record_finding", claimId, detail: { finding: code, source } });
    await rankClaim(db, claimId);
    return { ok: true };
  });
}
