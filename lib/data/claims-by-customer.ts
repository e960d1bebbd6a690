import "server-only";
import type { Language } from "@/lib/domain/claims/languages";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { IntakeAnswers } from "@/lib/domain/intake/answers";
import { type Db, database } from "./client";
import { TAKEN_OUTSIDE } from "./photos";

/** A filed claim with what its customer may see: nothing of the ranking, of staff or of other claims. Contested: no verdict stands any more. */
export async function findClaimForCustomer(claimId: string, db: Db = database()) {
  const claim = await db.claim.findFirst({
    where: { id: claimId, stage: { not: "draft" } },
    select: {
      id: true,
      reference: true,
      language: true,
      units: true,
      stage: true,
      version: true,
      filedBy: true,
      contactName: true,
      contactEmail: true,
      filedAt: true,
      promisedAt: true,
      firstAnswerAt: true,
      lapsesAt: true,
      stopsEngine: true,
      description: true,
      answers: true,
      serial: true,
      pairUnit: true,
      otherSerial: true,
      vehicleWords: true,
      vehicle: true,
      kitRevision: { select: { revision: true, kit: { select: { code: true, name: true } } } },
      mergedInto: { select: { reference: true, contactEmail: true } },
      checkRequests: { orderBy: { askedAt: "asc" }, select: { id: true, findingCode: true, note: true, state: true, askedAt: true, closedAt: true } },
      messages: { orderBy: { createdAt: "asc" }, select: { id: true, from: true, body: true, createdAt: true } },
      verdicts: { where: { supersededAt: null }, select: { letter: true, decidedAt: true, remedy: true, letterPhotos: true } },
      _count: { select: { verdicts: true } },
      photos: { where: TAKEN_OUTSIDE, orderBy: { createdAt: "asc" }, select: { id: true, subject: true, width: true, height: true } },
    },
  });
  return claim && { ...claim, answers: claim.answers as IntakeAnswers, isContested: claim._count.verdicts > 0 && claim.verdicts.length === 0 };
}

/** The claim with this reference and the customer's address, if the address is right; drafts are found by nobody. */
export function findClaimByContact(reference: string, email: string) {
  return database().claim.findFirst({
    where: { reference, contactEmail: { equals: email, mode: "insensitive" }, stage: { not: "draft" } },
    select: { id: true, reference: true, language: true, contactName: true, contactEmail: true },
  });
}

/** Sets what the customer reads; false when it is that already. The claim's version stays: nobody at the desk is told. */
export async function updateLanguage(db: Db, claimId: string, language: Language): Promise<boolean> {
  const { count } = await db.claim.updateMany({ where: { id: claimId, language: { not: language } }, data: { language } });
  return count === 1;
}

/** As `updateLanguage`, for the units. */
export async function updateUnits(db: Db, claimId: string, units: UnitSystem): Promise<boolean> {
  const { count } = await db.claim.updateMany({ where: { id: claimId, units: { not: units } }, data: { units } });
  return count === 1;
}

export async function insertCustomerMessage(db: Db, claimId: string, body: string): Promise<void> {
  await db.message.create({ data: { claimId, from: "customer", body } });
}

/** The open request for this check of this claim, or null. */
export function findOpenCheckRequest(db: Db, claimId: string, requestId: string): Promise<{ id: string; findingCode: FindingCode } | null> {
  return db.checkRequest.findFirst({ where: { id: requestId, claimId, state: "open" }, select: { id: true, findingCode: true } });
}

/** The open request for this finding on this claim, or null. */
export function findOpenRequestFor(db: Db, claimId: string, findingCode: FindingCode): Promise<{ id: string } | null> {
  return db.checkRequest.findFirst({ where: { claimId, findingCode, state: "open" }, select: { id: true } });
}

/** Closes a request with its answer, null for "I can't tell". */
export async function closeCheckRequest(db: Db, requestId: string, findingId: string | null, now: Date): Promise<void> {
  await db.checkRequest.update({ where: { id: requestId, state: "open" }, data: { state: "answered", findingId, closedAt: now } });
}

export function countOpenCheckRequests(db: Db, claimId: string): Promise<number> {
  return db.checkRequest.count({ where: { claimId, state: "open" } });
}

/** Ends the requests nobody needs to answer any more. */
export async function withdrawOpenCheckRequests(db: Db, claimId: string, now: Date): Promise<void> {
  await db.checkRequest.updateMany({ where: { claimId, state: "open" }, data: { state: "withdrawn", closedAt: now } });
}

/** The fitter of this name and place, made when new; two at once make one. */
export async function keepFitter(db: Db, name: string, place: string): Promise<{ id: string }> {
  await db.fitter.createMany({ data: [{ name, place }], skipDuplicates: true });
  return db.fitter.findUniqueOrThrow({ where: { name_place: { name, place } }, select: { id: true } });
}
