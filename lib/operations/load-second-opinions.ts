import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type ClaimAskedAbout, findAsked, findSecondOpinion, listAskedAbout } from "@/lib/data/blind-sample";
import { findClaimForStaff } from "@/lib/data/claims-for-staff";
import { database } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { listFindings } from "@/lib/data/findings";
import { vehicleName } from "@/lib/data/purchases";
import { loadSettings } from "@/lib/data/settings";
import type { Cause, FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { IntakeAnswers } from "@/lib/domain/intake/answers";
import { runInWords, shownFinding } from "@/lib/domain/intake/shown-answers";
import { toStaff } from "@/lib/messages/words";
import type { NotAsked } from "./give-second-opinion";
import { type Refusal, refuse } from "./refusal";

/** The claims on which this person is asked for a second opinion. */
export async function loadSecondOpinions(actor: StaffActor, now: Date = new Date()): Promise<{ ok: true; claims: readonly ClaimAskedAbout[]; share: number; timeZone: string } | Refusal> {
  const refused = await refuse(actor, "confirm a verdict");
  if (refused) return refused;
  const { secondOpinionShare: share, timeZone } = await loadSettings();
  return { ok: true, claims: await listAskedAbout(actor.personId, share, now), share, timeZone };
}

export interface BlindClaim {
  ok: true;
  id: string;
  kit: string | null;
  vehicle: string | null;
  run: string | null;
  findings: readonly { id: string; code: FindingCode; name: string; part: OilPathPart; answer: string; observer: Observer }[];
  photos: readonly { id: string; subject: string; takenBy: Observer }[];
  /** In the edition's order, which tells nothing. */
  causes: readonly Cause[];
}

/** A claim as somebody sees it who is to judge it blind: no ranking, no verdict, nobody's name, no words. */
export async function loadBlindClaim(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<BlindClaim | Refusal | NotAsked> {
  const refused = await refuse(actor, "confirm a verdict", claimId);
  if (refused) return refused;
  const [claim, given, edition, findings, { secondOpinionShare }] = await Promise.all([findClaimForStaff(claimId), findSecondOpinion(claimId), loadEditionInForce(), listFindings(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  if (given) return { ok: false, reason: "given-already", by: given.givenBy.name, at: given.givenAt };
  const { verdictId, hasDecided } = await findAsked(database(), claimId, actor.personId, secondOpinionShare, now);
  if (verdictId === null) return { ok: false, reason: "not-asked" };
  if (hasDecided) return { ok: false, reason: "decided-by-you" };
  return {
    ok: true,
    id: claim.id,
    kit: claim.kitRevision && `${claim.kitRevision.kit.name}, rev ${claim.kitRevision.revision}`,
    vehicle: claim.vehicle && vehicleName(claim.vehicle),
    run: runInWords({ ...claim, answers: claim.answers as IntakeAnswers }, toStaff),
    findings: findings.flatMap((finding) => {
      const definition = edition.findings.find(({ code }) => code === finding.code);
      const answer = definition ? shownFinding(definition, finding, toStaff) : null;
      return definition && answer !== null ? [{ id: finding.id, code: finding.code, name: definition.name, part: definition.part, answer, observer: finding.observer }] : [];
    }),
    photos: claim.photos,
    causes: edition.causes,
  };
}

/** The second opinion on a claim beside its verdict, for everybody who sees the claim; null while there is none. */
export async function loadSecondOpinionOfClaim(actor: StaffActor, claimId: string): Promise<{ ok: true; opinion: Awaited<ReturnType<typeof findSecondOpinion>> } | Refusal> {
  const refused = await refuse(actor, "see a claim", claimId);
  return refused ?? { ok: true, opinion: await findSecondOpinion(claimId) };
}
