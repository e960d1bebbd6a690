import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimForStaff, listDeskPeople } from "@/lib/data/claims-for-staff";
import { loadEdition, loadEditionInForce } from "@/lib/data/editions";
import { listDeskNotes } from "@/lib/data/desk-notes";
import { listFindingsOfEach, observationsFrom } from "@/lib/data/findings";
import { listMarksOfClaim } from "@/lib/data/photo-marks";
import { vehicleName } from "@/lib/data/purchases";
import { type KeptRanking, findLatestRanking } from "@/lib/data/rankings";
import { loadSettings } from "@/lib/data/settings";
import { listVerdicts } from "@/lib/data/verdicts";
import { overtakenOfJoined, standingOfJoined } from "@/lib/domain/claims/joined-findings";
import type { FindingSource } from "@/lib/domain/claims/finding-sources";
import { fuelOf } from "@/lib/domain/claims/fuel";
import type { Language } from "@/lib/domain/claims/languages";
import { transition } from "@/lib/domain/claims/lifecycle";
import type { PairUnit } from "@/lib/domain/claims/pair-units";
import { may } from "@/lib/domain/claims/permissions";
import { type ProposedVerdict, proposeVerdict } from "@/lib/domain/claims/proposed-verdict";
import { isAnswer, wroteInWords } from "@/lib/domain/claims/queue-order";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { isContested, type Verdict } from "@/lib/domain/claims/verdict";
import { type Account, accountForStaff } from "@/lib/domain/diagnosis/account";
import { type Caution, stopEngineInWords } from "@/lib/domain/diagnosis/cautions";
import { type CheckPlan, planChecks } from "@/lib/domain/diagnosis/check-plan";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { type Explanation, explainRanking, type OpenFinding, openFindings } from "@/lib/domain/diagnosis/explanation";
import { fittingObservations } from "@/lib/domain/diagnosis/fitting-observations";
import { type ClaimContext, NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import type { CheckCost, Edition, FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import { nextChecks } from "@/lib/domain/diagnosis/next-checks";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { NextCheck } from "@/lib/domain/diagnosis/ranking";
import { type Stakes, stakesOf } from "@/lib/domain/diagnosis/stakes";
import type { IntakeAnswers } from "@/lib/domain/intake/answers";
import { runInWords, shownFinding } from "@/lib/domain/intake/shown-answers";
import { toStaff } from "@/lib/messages/words";
import { type Refusal, refuse } from "./refusal";

export interface StaffClaim {
  ok: true;
  id: string;
  reference: string;
  stage: ClaimStage;
  version: number;
  filedBy: Observer;
  filedAt: Date | null;
  promisedAt: Date | null;
  firstAnswerAt: Date | null;
  kit: string | null;
  vehicle: string | null;
  unit: { serial: string; batch: string } | null;
  /** Which unit of a compound pair, where it is one; the serials as they were told. */
  pair: { unit: PairUnit | null; serial: string | null; otherSerial: string | null };
  shippedOn: Date | null;
  fittedOn: Date | null;
  /** How far it has run since it was fitted, as it was told. */
  run: string | null;
  assignedTo: { id: string; name: string } | null;
  mergedInto: { id: string; reference: string } | null;
  /** Complaints about the same thing that go on here. */
  merged: readonly { id: string; reference: string; filedAt: Date | null }[];
  /** Null for a role that may not see the customer: name, addresses, words, messages, letters. */
  customer: Customer | null;
  /** The desk's own; null for a role that may not read them. */
  notes: readonly { id: string; body: string; by: string; at: Date }[] | null;
  findings: readonly KnownFinding[];
  /** What the same observer said otherwise later, in another complaint about the same thing. */
  overtaken: readonly KnownFinding[];
  photos: readonly ShownPhoto[];
  /** The newest ranking, worded by the edition it was made with. */
  kept: KeptRanking | null;
  /** Number of the edition that ranks from now on; the ranking kept may be of an earlier one. */
  editionInForce: number;
  edition: Edition;
  account: Account | null;
  /** What the ranking kept hangs on, and what is still open; null before the first ranking. */
  explanation: (Explanation & { open: readonly OpenFinding[] }) | null;
  stop: Caution | null;
  checks: readonly PossibleCheck[];
  /** What to look at next and what then; null where nothing is to be decided any more. */
  plan: ShownPlan | null;
  asked: readonly { id: string; finding: FindingCode; name: string; part: OilPathPart; state: "open" | "answered" | "withdrawn"; note: string; askedBy: string; askedAt: Date }[];
  proposed: ProposedVerdict;
  /** The newest first; `supersededAt` is null for the one that stands. */
  verdicts: readonly GivenVerdict[];
  story: readonly { id: string; at: Date; actor: string; action: string; detail: Readonly<Record<string, unknown>> }[];
  people: readonly { id: string; name: string }[];
  timeZone: string;
}

export interface Customer {
  name: string;
  email: string;
  phone: string | null;
  country: string | null;
  orderNumber: string | null;
  /** As typed; it may be no serial of ours. */
  serial: string | null;
  fitter: string | null;
  language: Language;
  description: string;
  /** What was written in complaints merged into this one. */
  alsoTold: readonly { reference: string; name: string; description: string; language: Language }[];
  /** `about` names the merged complaint that a message belongs to; each is in the language of its complaint. */
  messages: readonly { id: string; from: string; isStaff: boolean; body: string; createdAt: Date; about: string | null; language: Language }[];
  /** That they wrote and nobody has answered, in words; null where nothing waits for an answer. */
  wrote: string | null;
}

export interface ShownPhoto {
  id: string;
  subject: string;
  takenBy: Observer;
  createdAt: Date;
  width: number;
  height: number;
  /** The merged complaint it came with. */
  from: string | null;
  marks: readonly { number: number; word: string }[];
}

export interface KnownFinding {
  id: string;
  /** The merged complaint it was told in. */
  from: string | null;
  code: FindingCode;
  name: string;
  part: OilPathPart;
  answer: string;
  observer: Observer;
  by: string | null;
  note: string;
  observedAt: Date;
}

/** A plan of checks, worded by the edition in force. */
export interface ShownPlan {
  plan: CheckPlan;
  edition: Edition;
  currency: string;
}

export interface PossibleCheck {
  finding: FindingCode;
  name: string;
  part: OilPathPart;
  minutes: number;
  cost: CheckCost;
  tools: readonly string[];
  /** Whether the customer can be asked; else it takes a technician. */
  isForCustomer: boolean;
  isAsked: boolean;
}

export interface GivenVerdict extends Verdict {
  id: string;
  /** Null for a role that may not see the customer. */
  letter: string | null;
  by: string;
  decidedAt: Date;
  /** The second person who looked at it before it went out. */
  approvedBy: string | null;
  supersededAt: Date | null;
  /** What was said against it; empty for a role that may not see the customer. */
  objection: string;
}

export type LoadClaimResult = StaffClaim | Refusal | { ok: false; reason: "not-found" };

const MOST_CHECKS = 6;

/** One claim as its sheet shows it. What a role may not see of the customer is not in the answer at all. */
export async function loadClaim(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<LoadClaimResult> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const claim = await findClaimForStaff(claimId);
  if (!claim) return { ok: false, reason: "not-found" };
  const seesCustomer = may(actor.role, "see the customer");
  const [inForce, kept, found, marks, notes, verdicts, people, settings] = await Promise.all([
    loadEditionInForce(),
    findLatestRanking(claimId),
    listFindingsOfEach(claimId),
    listMarksOfClaim(claimId),
    may(actor.role, "read and write notes") ? listDeskNotes(claimId) : null,
    listVerdicts(claimId),
    listDeskPeople(),
    loadSettings(),
  ]);
  const findings = standingOfJoined(found);
  const observations = observationsFrom(findings);
  const mergedName = new Map(claim.mergedClaims.map(({ id, reference }) => [id, reference]));
  const fuel = fuelOf({ vehicle: claim.vehicle, answers: claim.answers as IntakeAnswers });
  const edition = editionForFuel(kept ? await loadEdition(kept.ranking.edition) : inForce, fuel);
  const observer = claim.filedBy ?? "customer";
  const asked = claim.checkRequests.filter(({ state }) => state === "open").map(({ findingCode }) => findingCode);
  const answeredAt = claim.auditEntries.findLast(isAnswer)?.at;
  const wroteAt = claim.messages.find(({ from, createdAt }) => from === "customer" && !(answeredAt && answeredAt >= createdAt))?.createdAt ?? null;
  // The engine's fuel decides which checks the plan may name, as it does for the edition that words the ranking.
  const toCheck = {
    observer,
    observations: fittingObservations(observations, inForce),
    edition: editionForFuel(inForce, fuel),
    stakes: stakesOf(settings),
    context: kept?.ranking.context ?? NO_CONTEXT,
  };
  const known = (finding: (typeof found)[number]): KnownFinding[] => {
    const definition = inForce.findings.find(({ code }) => code === finding.code);
    if (!definition) return [];
    const { id, code, observer: who, person, note, observedAt } = finding;
    return [
      {
        id,
        from: mergedName.get(finding.claimId) ?? null,
        code,
        name: definition.name,
        part: definition.part,
        answer: shownFinding(definition, finding, toStaff) ?? "not known",
        observer: who,
        by: person?.name ?? null,
        note: seesCustomer ? note : "",
        observedAt,
      },
    ];
  };
  const standing = findings.flatMap(known);
  const stop = claim.stopsEngine ? kept?.ranking.stopEngine : null;
  const worth = checksByWorth(toCheck);

  return {
    ok: true,
    id: claim.id,
    reference: claim.reference,
    stage: claim.stage,
    version: claim.version,
    filedBy: observer,
    filedAt: claim.filedAt,
    promisedAt: claim.promisedAt,
    firstAnswerAt: claim.firstAnswerAt,
    kit: claim.kitRevision && `${claim.kitRevision.kit.name}, rev ${claim.kitRevision.revision}`,
    vehicle: claim.vehicle ? vehicleName(claim.vehicle) : seesCustomer ? claim.vehicleWords : null,
    unit: claim.unit && { serial: claim.unit.serial, batch: claim.unit.batch },
    pair: { unit: claim.pairUnit, serial: claim.serial, otherSerial: claim.otherSerial },
    shippedOn: claim.shipment?.shippedOn ?? null,
    fittedOn: claim.fittedOn,
    run: runInWords({ ...claim, answers: claim.answers as IntakeAnswers }, toStaff),
    assignedTo: claim.assignedTo,
    mergedInto: claim.mergedInto,
    merged: claim.mergedClaims.map(({ id, reference, filedAt }) => ({ id, reference, filedAt })),
    customer: seesCustomer
      ? {
          name: claim.contactName ?? "",
          email: claim.contactEmail ?? "",
          phone: claim.contactPhone,
          country: claim.country,
          orderNumber: claim.orderNumber,
          serial: claim.serial,
          fitter: claim.fitter && [claim.fitter.name, claim.fitter.place].filter(Boolean).join(", "),
          language: claim.language,
          description: claim.description,
          alsoTold: claim.mergedClaims.map(({ reference, contactName, description, language }) => ({ reference, name: contactName ?? "", description, language })),
          messages: shownMessages(claim),
          wrote: wroteInWords({ wroteAt, isContested: isContested(verdicts) }, now),
        }
      : null,
    notes: notes?.map(({ id, body, person, createdAt }) => ({ id, body, by: person.name, at: createdAt })) ?? null,
    findings: standing,
    overtaken: overtakenOfJoined(found).flatMap(known).filter(({ code, observer: who, answer }) => standing.some((one) => one.code === code && one.observer === who && one.answer !== answer)),
    photos: shownPhotos(claim, marks),
    kept,
    editionInForce: inForce.number,
    edition,
    account: kept && accountForStaff(kept.ranking, edition),
    explanation: kept && { ...explainRanking(kept.observations, edition, kept.ranking.context), open: openFindings(kept.ranking, [...worth.forCustomer, ...worth.forTechnician]) },
    stop: stop ? stopEngineInWords(stop.reason, toStaff) : null,
    checks: possibleChecks(worth, toCheck.edition, asked),
    plan: transition(claim.stage, "decide").ok ? shownPlan(toCheck, asked, settings.currency) : null,
    asked: claim.checkRequests.flatMap(({ id, findingCode, state, note, askedBy, askedAt }) => {
      const definition = inForce.findings.find(({ code }) => code === findingCode);
      return definition ? [{ id, finding: findingCode, name: definition.name, part: definition.part, state, note: seesCustomer ? note : "", askedBy: askedBy.name, askedAt }] : [];
    }),
    proposed: proposeVerdict(kept?.ranking ?? null, observations, { hasPhotos: [claim, ...claim.mergedClaims].some(({ photos }) => photos.length > 0), seenOnPhotos: seenOnPhotos(claim.auditEntries) }),
    verdicts: verdicts.map(({ decidedBy, approvedBy, ...verdict }) => ({
      ...verdict,
      // Staff may name the customer in either, and who objected does.
      reason: seesCustomer ? verdict.reason : "",
      letter: seesCustomer ? verdict.letter : null,
      objection: seesCustomer ? verdict.objection : "",
      by: decidedBy.name,
      approvedBy: approvedBy?.name ?? null,
    })),
    story: claim.auditEntries.map(({ id, at, actorKind, person, action, detail }) => {
      const { reason, ...codes } = detail as Record<string, unknown>;
      return { id: String(id), at, actor: person?.name ?? (actorKind === "customer" ? "the customer" : "the system"), action, detail: seesCustomer && reason !== undefined ? { ...codes, reason } : codes };
    }),
    people,
    timeZone: settings.timeZone,
  };
}

/** The messages of a claim and of those merged into it, oldest first. */
function shownMessages(claim: FoundClaim): Customer["messages"] {
  return [{ ...claim, about: null }, ...claim.mergedClaims.map((merged) => ({ ...merged, about: merged.reference }))]
    .flatMap(({ messages, contactName, about, language }) =>
      messages.map(({ id, from, person, body, createdAt }) => ({ id, from: person?.name ?? contactName ?? "", isStaff: from === "staff", body, createdAt, about, language })),
    )
    .sort((a, b) => a.createdAt.getTime() - b.createdAt.getTime());
}

function shownPhotos(claim: FoundClaim, marks: readonly { photoId: string; number: number; word: string }[]): ShownPhoto[] {
  return [{ ...claim, from: null }, ...claim.mergedClaims.map((merged) => ({ ...merged, from: merged.reference }))].flatMap(({ photos, from }) =>
    photos.map((photo) => ({ ...photo, from, marks: marks.filter(({ photoId }) => photoId === photo.id) })),
  );
}

type FoundClaim = NonNullable<Awaited<ReturnType<typeof findClaimForStaff>>>;

/** The findings whose last look that counts as a technician's was at a photo. */
function seenOnPhotos(entries: readonly { action: string; detail: unknown }[]): Set<FindingCode> {
  const looked = entries.flatMap(({ action, detail }) => (action === "record_finding" ? [detail as { finding: FindingCode; source?: FindingSource }] : [])).filter(({ source }) => source !== "customer");
  const last = new Map(looked.map(({ finding, source }) => [finding, source]));
  return new Set([...last].filter(([, source]) => source === "photo").map(([finding]) => finding));
}

interface ToCheck {
  observer: Observer;
  observations: readonly Observation[];
  edition: Edition;
  stakes: Stakes;
  context: ClaimContext;
}

/** The plan over what the customer can be asked and what takes a technician; what is asked for already is not planned. */
function shownPlan({ observer, observations, edition, stakes, context }: ToCheck, asked: readonly FindingCode[], currency: string): ShownPlan | null {
  const observers: readonly Observer[] = observer === "technician" ? ["technician"] : [observer, "technician"];
  const plan = planChecks(observations, edition, { observers, stakes, context, except: new Set(asked) });
  return plan && { plan, edition, currency };
}

interface ChecksByWorth {
  forCustomer: readonly NextCheck[];
  /** What the customer cannot be asked. */
  forTechnician: readonly NextCheck[];
}

/** What can still be looked at, the worthiest first. */
function checksByWorth({ observer, observations, edition, stakes, context }: ToCheck): ChecksByWorth {
  const worth = (who: Observer) => nextChecks(observations, edition, { observer: who, stakes, context });
  const forCustomer = worth(observer);
  const forTechnician = observer === "technician" ? [] : worth("technician").filter(({ finding }) => !forCustomer.some((check) => check.finding === finding));
  return { forCustomer, forTechnician };
}

/** What is worth looking at next: first what the customer can be asked, then what takes a technician. */
function possibleChecks({ forCustomer, forTechnician }: ChecksByWorth, edition: Edition, asked: readonly FindingCode[]): PossibleCheck[] {
  return [...forCustomer.slice(0, MOST_CHECKS), ...forTechnician.slice(0, MOST_CHECKS)].flatMap(({ finding, minutes, cost }) => {
    const definition = edition.findings.find(({ code }) => code === finding);
    if (!definition) return [];
    return [{ finding, name: definition.name, part: definition.part, minutes, cost, tools: definition.tools, isForCustomer: forCustomer.some((check) => check.finding === finding), isAsked: asked.includes(finding) }];
  });
}
