import "server-only";
import { createHash } from "node:crypto";
import { type ClaimToActOn, findClaimToActOn } from "@/lib/data/claims-for-staff";
import { database } from "@/lib/data/client";
import { loadEdition, loadEditionInForce } from "@/lib/data/editions";
import { listFindings, listObservations } from "@/lib/data/findings";
import { vehicleName } from "@/lib/data/purchases";
import { findFuelOfClaim, findLatestRanking } from "@/lib/data/rankings";
import { loadSettings } from "@/lib/data/settings";
import { composeLetter } from "@/lib/domain/claims/letter";
import { transition } from "@/lib/domain/claims/lifecycle";
import { attributionOf, openBeforeRemedy } from "@/lib/domain/claims/proposed-verdict";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Verdict } from "@/lib/domain/claims/verdict";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { shownFinding } from "@/lib/domain/intake/shown-answers";
import type { VerdictInput } from "@/lib/inputs/verdict";

export interface PreparedVerdict {
  ok: true;
  claim: ClaimToActOn;
  verdict: Verdict;
  letter: string;
  /** Of the letter, so that only one that was read is sent. */
  fingerprint: string;
  rankingId: string | null;
}

export type NotPrepared =
  | { ok: false; reason: "not-found" }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage }
  /** New findings came in: the ranking is not the one the person saw. */
  | { ok: false; reason: "ranked-meanwhile" }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/**
 * A verdict as it would be given, with its letter, or what stands against it. Writes nothing. Part of the operations that
 * preview and confirm a verdict, which have checked who asks.
 */
export async function prepareVerdict(claimId: string, input: VerdictInput): Promise<PreparedVerdict | NotPrepared> {
  const [claim, inForce, kept, observations, findings, seller] = await Promise.all([
    findClaimToActOn(claimId),
    loadEditionInForce(),
    findLatestRanking(claimId),
    listObservations(database(), claimId),
    listFindings(claimId),
    loadSettings(),
  ]);
  if (!claim) return { ok: false, reason: "not-found" };
  // Staff chose among the causes of the ranking they saw.
  const edition = kept ? await loadEdition(kept.ranking.edition) : inForce;
  if (!transition(claim.stage, "decide").ok) return { ok: false, reason: "not-legal-here", stage: claim.stage };
  if ((kept?.id ?? null) !== input.rankingId) return { ok: false, reason: "ranked-meanwhile" };

  const causeOf = (code: string) => edition.causes.find((cause) => cause.code === code);
  const primary = causeOf(input.primaryCause);
  if (!primary) return { ok: false, reason: "refused", messages: { primaryCause: "Choose a cause of the list" } };
  const contributing = [...new Set(input.contributingCauses)].flatMap((code) => causeOf(code) ?? []);
  const leader = kept?.ranking.outcome === "ranked" ? kept.ranking.causes[0]?.code : undefined;
  const origin = primary.originIsOpen ? input.origin : null;
  const verdict: Verdict = {
    primaryCause: primary.code,
    contributingCauses: contributing.map(({ code }) => code),
    attribution: attributionOf(primary, origin),
    origin,
    way: primary.code === leader ? "confirmed" : "overruled",
    basis: input.basis,
    reason: input.reason,
    remedy: input.remedy,
  };

  const messages: Record<string, string> = {};
  if (primary.originIsOpen && origin === null) messages.origin = "Say where it lies, or that it is not known";
  if (contributing.includes(primary)) messages.contributingCauses = `\u201c${primary.name}\u201d is the primary cause and cannot contribute as well`;
  const open = openBeforeRemedy(verdict, observations, edition);
  if (open.length > 0 && !input.decidesAllTheSame) messages.decidesAllTheSame = `Not looked at yet: ${open.map(({ name, settledBy }) => `${name} (${settledBy})`).join("; ")}. Ask for these, or tick here and give the reason`;
  if (verdict.reason === "" && verdict.way === "overruled") messages.reason = "Write why: this is not the cause the ranking puts first";
  else if (verdict.reason === "" && open.length > 0) messages.reason = "Write why this is decided with drain or crankcase still open";
  if (verdict.remedy === "declined" && input.explanation === "") messages.explanation = "Write why nothing is done, in words for the customer";
  if (Object.keys(messages).length > 0) return { ok: false, reason: "refused", messages };

  const letter = composeLetter(
    {
      name: claim.contactName ?? "",
      reference: claim.reference,
      about: claim.kitRevision?.kit.name ?? (claim.vehicle ? vehicleName(claim.vehicle) : null),
      findings: findings.flatMap((finding) => {
        const definition = edition.findings.find(({ code }) => code === finding.code);
        const answer = definition ? shownFinding(definition, finding) : null;
        return definition && answer !== null ? [{ part: definition.part, name: definition.name, answer, observer: finding.observer }] : [];
      }),
      primary,
      contributing,
      attribution: verdict.attribution,
      origin,
      remedy: verdict.remedy,
      explanation: input.explanation,
      stop: (claim.stopsEngine && kept?.ranking.stopEngine?.reason) || null,
      seller,
    },
    editionForFuel(edition, await findFuelOfClaim(database(), claimId)),
  );
  return { ok: true, claim, verdict, letter, fingerprint: createHash("sha256").update(letter).digest("hex"), rankingId: kept?.id ?? null };
}
