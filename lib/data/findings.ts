import "server-only";
import { standingOfJoined } from "@/lib/domain/claims/joined-findings";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import type { FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import { type Db, database } from "./client";
import type { Finding } from "./generated/client";

export interface FindingToInsert {
  claimId: string;
  code: FindingCode;
  observer: Observer;
  /** An option of the edition, or `unknown`; null where measured. */
  answer: string | null;
  /** In the edition's unit. */
  measured: number | null;
  typedValue?: string;
  typedUnit?: string;
  /** In the edition's unit, where it was found in a roundabout way. */
  spread?: number;
  note?: string;
  personId?: string;
  benchInspectionId?: string;
}

/** Keeps a finding; an earlier one of the same code by the same observer is marked as replaced and stays. */
export async function insertFinding(db: Db, finding: FindingToInsert): Promise<{ id: string }> {
  await db.finding.updateMany({
    where: { claimId: finding.claimId, code: finding.code, observer: finding.observer, replacedAt: null },
    data: { replacedAt: new Date() },
  });
  return db.finding.create({
    data: {
      claimId: finding.claimId,
      code: finding.code,
      observer: finding.observer,
      answer: finding.answer,
      measured: finding.measured,
      typedValue: finding.typedValue ?? null,
      typedUnit: finding.typedUnit ?? null,
      spread: finding.spread ?? null,
      note: finding.note ?? "",
      personId: finding.personId ?? null,
      benchInspectionId: finding.benchInspectionId ?? null,
    },
    select: { id: true },
  });
}

/** What this observer has last said of a finding, or null. */
export function findStandingFinding(db: Db, claimId: string, code: FindingCode, observer: Observer) {
  return db.finding.findFirst({ where: { claimId, code, observer, replacedAt: null }, select: { answer: true, measured: true } });
}

const BY_TIME = [{ observedAt: "asc" }, { id: "asc" }] as const;
const WHO_LOOKED = { person: { select: { name: true } } } as const;

/** The findings that stand, oldest first, with who looked: of the claim and of those merged into it. */
export async function listFindings(claimId: string, db: Db = database()) {
  return standingOfJoined(await listFindingsOfEach(claimId, db));
}

/** The same before it is said which stand where two complaints about one thing say it twice. */
export function listFindingsOfEach(claimId: string, db: Db = database()) {
  return db.finding.findMany({ where: { replacedAt: null, claim: { OR: [{ id: claimId }, { mergedIntoId: claimId }] } }, orderBy: [...BY_TIME], include: WHO_LOOKED });
}

/** The findings of this claim alone, for its own customer, to whom what others wrote is not shown. */
export function listOwnFindings(claimId: string) {
  return database().finding.findMany({ where: { claimId, replacedAt: null }, orderBy: [...BY_TIME], include: WHO_LOOKED });
}

/** The same as observations for the ranking; "don't know" is left out. */
export async function listObservations(db: Db, claimId: string): Promise<Observation[]> {
  return observationsFrom(await listFindings(claimId, db));
}

/** Findings that stand, oldest first, as observations for the ranking; "don't know" is left out. */
export function observationsFrom(findings: readonly Pick<Finding, "code" | "observer" | "answer" | "measured" | "spread">[]): Observation[] {
  return findings.flatMap(({ code, observer, answer, measured, spread }): Observation[] => {
    if (measured !== null) return [{ finding: code, observer, measured, ...(spread === null ? {} : { spread }) }];
    return answer === null || answer === "unknown" ? [] : [{ finding: code, observer, answer }];
  });
}
