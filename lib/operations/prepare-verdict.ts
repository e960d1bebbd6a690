import "server-only";
import { createHash } from "node:crypto";
import type { StaffActor } from "@/lib/access/actors";
import { type ClaimToActOn, findClaimToActOn } from "@/lib/data/claims-for-staff";
import { database } from "@/lib/data/client";
import { loadEdition, loadEditionInForce } from "@/lib/data/editions";
import { listFindings, listObservations } from "@/lib/data/findings";
import { vehicleName } from "@/lib/data/purchases";
import { findFuelOfClaim, findLatestRanking } from "@/lib/data/rankings";
import { listPhotos } from "@/lib/data/photos";
import { loadSettings } from "@/lib/data/settings";
import { listVerdicts } from "@/lib/data/verdicts";
import { shareOut } from "@/lib/domain/claims/bearing-shares";
import { kindOfRemedy } from "@/lib/domain/claims/bookings";
import { composeLetter } from "@/lib/domain/claims/letter";
import { transition } from "@/lib/domain/claims/lifecycle";
import { fromMinor } from "@/lib/domain/claims/money";
import { attributionOf, openBeforeRemedy } from "@/lib/domain/claims/proposed-verdict";
import { priceOf } from "@/lib/domain/claims/remedy-costs";
import { type SecondPersonGround, secondPersonGrounds } from "@/lib/domain/claims/second-person";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { isContested, mayDecideAgain, type Verdict } from "@/lib/domain/claims/verdict";
import { FIRST_LANGUAGE, type Language } from "@/lib/domain/claims/languages";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { editionInLanguage } from "@/lib/domain/diagnosis/edition-in-language";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { shownFinding } from "@/lib/domain/intake/shown-answers";
import { amountSchema } from "@/lib/inputs/settlement";
import type { VerdictInput } from "@/lib/inputs/verdict";
import { sayIn } from "@/lib/messages/words";
import { remedyPricesOf } from "./remedy-prices";

export interface PreparedVerdict {
  ok: true;
  claim: ClaimToActOn;
  verdict: Verdict;
  letter: string;
  /** What it says, for staff; null where the letter is in English. */
  inEnglish: string | null;
  /** Of the letter, so that only one that was read is sent. */
  fingerprint: string;
  rankingId: string | null;
  /** Why a second person looks at it before it goes out; empty where one is enough. */
  grounds: readonly SecondPersonGround[];
}

export type NotPrepared =
  | { ok: false; reason: "not-found" }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage }
  /** New findings came in: the ranking is not the one the person saw. */
  | { ok: false; reason: "ranked-meanwhile" }
  /** This person gave the verdict that was taken back: somebody else answers the objection. */
  | { ok: false; reason: "decided-before" }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/**
 * A verdict as it would be given, with its letter, or what stands against it. Writes nothing. Part of the operations that
 * preview and confirm a verdict, which have checked who asks.
 */
export async function prepareVerdict(claimId: string, input: VerdictInput, actor: StaffActor): Promise<PreparedVerdict | NotPrepared> {
  const [claim, inForce, kept, observations, findings, seller, verdicts, photos] = await Promise.all([
    findClaimToActOn(claimId),
    loadEditionInForce(),
    findLatestRanking(claimId),
    listObservations(database(), claimId),
    listFindings(claimId),
    loadSettings(),
    listVerdicts(claimId),
    listPhotos(claimId),
  ]);
  if (!claim) return { ok: false, reason: "not-found" };
  // Staff chose among the causes of the ranking they saw.
  const edition = kept ? await loadEdition(kept.ranking.edition) : inForce;
  if (!transition(claim.stage, "decide").ok) return { ok: false, reason: "not-legal-here", stage: claim.stage };
  if ((kept?.id ?? null) !== input.rankingId) return { ok: false, reason: "ranked-meanwhile" };
  if (!mayDecideAgain({ id: actor.personId, role: actor.role }, verdicts)) return { ok: false, reason: "decided-before" };

  const causeOf = (code: string) => edition.causes.find((cause) => cause.code === code);
  const primary = causeOf(input.primaryCause);
  if (!primary) return { ok: false, reason: "refused", messages: { primaryCause: "Choose a cause of the list" } };
  const contributing = [...new Set(input.contributingCauses)].flatMap((code) => causeOf(code) ?? []);
  const leader = kept?.ranking.outcome === "ranked" ? kept.ranking.causes[0]?.code : undefined;
  const origin = primary.originIsOpen ? input.origin : null;
  const messages: Record<string, string> = {};
  const sum = (field: "promised" | "coreDeposit") => {
    const read = amountSchema(seller.currency).safeParse(input[field]);
    if (!read.success) messages[field] = read.error.issues[0]?.message ?? "";
    return read.data ?? null;
  };
  const [promisedMinor, coreDepositMinor] = [sum("promised"), sum("coreDeposit")];
  const verdict: Verdict = {
    primaryCause: primary.code,
    contributingCauses: contributing.map(({ code }) => code),
    attribution: attributionOf(primary, origin),
    origin,
    way: primary.code === leader ? "confirmed" : "overruled",
    basis: input.basis,
    reason: input.reason,
    remedy: input.remedy,
    promisedMinor,
    promisedCurrency: promisedMinor === null && coreDepositMinor === null ? null : seller.currency,
    sellerPercent: promisedMinor === null ? 100 : input.sellerPercent,
    coreDepositMinor,
    paysCarriage: input.paysCarriage === "yes",
    letterPhotos: photos.flatMap(({ id }) => (input.letterPhotos.includes(id) ? [id] : [])),
  };
  // Who objected gave a reason: the next letter answers it.
  const objection = isContested(verdicts) ? (verdicts[0]?.objection ?? "") : null;

  if (primary.originIsOpen && origin === null) messages.origin = "Say where it lies, or that it is not known";
  if (contributing.includes(primary)) messages.contributingCauses = `\u201c${primary.name}\u201d is the primary cause and cannot contribute as well`;
  const open = openBeforeRemedy(verdict, observations, edition);
  if (open.length > 0 && !input.decidesAllTheSame) messages.decidesAllTheSame = `Not looked at yet: ${open.map(({ name, settledBy }) => `${name} (${settledBy})`).join("; ")}. Ask for these, or tick here and give the reason`;
  if (verdict.reason === "" && verdict.way === "overruled") messages.reason = "Write why: this is not the cause the ranking puts first";
  else if (verdict.reason === "" && open.length > 0) messages.reason = "Write why this is decided with drain or crankcase still open";
  if (kindOfRemedy(verdict.remedy) === null && promisedMinor !== null) messages.promised = "This remedy pays for nothing: leave it empty, or choose another";
  if (verdict.remedy !== "replacement" && coreDepositMinor !== null) messages.coreDeposit = "A deposit for the old part goes with a replacement";
  if (objection !== null && input.explanation === "") messages.explanation = "Answer what was said against the last verdict, in words for the customer";
  else if (verdict.remedy === "declined" && input.explanation === "") messages.explanation = "Write why nothing is done, in words for the customer";
  if (Object.keys(messages).length > 0) return { ok: false, reason: "refused", messages };

  const burning = editionForFuel(edition, await findFuelOfClaim(database(), claimId));
  const letterIn = (language: Language): string => {
    const worded = editionInLanguage(burning, language);
    const say = sayIn(language);
    const inWords = (cause: Cause) => worded.causes.find(({ code }) => code === cause.code) ?? cause;
    return composeLetter(
      {
        name: claim.contactName ?? "",
        reference: claim.reference,
        about: claim.kitRevision?.kit.name ?? (claim.vehicle ? vehicleName(claim.vehicle) : null),
        findings: findings.flatMap((finding) => {
          const definition = worded.findings.find(({ code }) => code === finding.code);
          const answer = definition ? shownFinding(definition, finding, say) : null;
          return definition && answer !== null ? [{ part: definition.part, name: definition.name, answer, observer: finding.observer }] : [];
        }),
        primary: inWords(primary),
        contributing: contributing.map(inWords),
        attribution: verdict.attribution,
        origin,
        remedy: verdict.remedy,
        explanation: input.explanation,
        objection,
        promise: verdict,
        stop: (claim.stopsEngine && kept?.ranking.stopEngine?.reason) || null,
        seller,
      },
      worded,
      say,
    );
  };
  const letter = letterIn(claim.language);
  const prices = remedyPricesOf(seller, claim.unit?.turboModel ?? claim.kitRevision?.kit.turboModel);
  const cost = promisedMinor === null ? priceOf(verdict.remedy, prices) : fromMinor(shareOut(promisedMinor, { sellerPercent: verdict.sellerPercent, supplierPercent: 0 }).sellerMinor, seller.currency);
  const fingerprint = createHash("sha256").update([letter, ...verdict.letterPhotos].join("\n")).digest("hex");
  return { ok: true, claim, verdict, letter, inEnglish: claim.language === FIRST_LANGUAGE ? null : letterIn(FIRST_LANGUAGE), fingerprint, rankingId: kept?.id ?? null, grounds: secondPersonGrounds({ remedy: verdict.remedy, cost }, kept?.ranking ?? null, seller.secondPersonAbove) };
}
