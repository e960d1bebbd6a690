import "server-only";
import { dayOfColumn } from "@/lib/domain/warranty/calendar-day";
import type { TermsDocument, WarrantyVersion } from "@/lib/domain/warranty/terms";
import { type Db, database } from "./client";

const SHOWN = { draftedBy: { select: { name: true } }, putInForceBy: { select: { name: true } } } as const;

/** One version as kept, with its people. */
export interface KeptTerms extends WarrantyVersion {
  change: string;
  draftedBy: string;
  updatedAt: Date;
  /** Null in a draft. */
  inForceAt: Date | null;
  putInForceBy: string | null;
}

interface Row {
  number: number;
  validFrom: Date;
  document: unknown;
  change: string;
  updatedAt: Date;
  inForceAt: Date | null;
  draftedBy: { name: string };
  putInForceBy: { name: string } | null;
}

// Only what the schema of the terms has read is written there.
const kept = ({ number, validFrom, document, change, updatedAt, inForceAt, draftedBy, putInForceBy }: Row): KeptTerms => ({ number, validFrom: dayOfColumn(validFrom), document: document as TermsDocument, change, updatedAt, inForceAt, draftedBy: draftedBy.name, putInForceBy: putInForceBy?.name ?? null });

/** Every version, the newest first; a draft, where there is one, before them. */
export async function listTerms(db: Db = database()): Promise<KeptTerms[]> {
  return (await db.warrantyTerms.findMany({ orderBy: { number: "desc" }, include: SHOWN })).map(kept);
}

/** Waits until nobody else drafts terms or puts them in force, to the end of the transaction. */
export async function lockTerms(db: Db): Promise<void> {
  await db.$executeRaw`LOCK TABLE "warranty_terms" IN SHARE ROW EXCLUSIVE MODE`;
}

export async function insertTermsDraft(db: Db, draft: { number: number; validFrom: Date; document: TermsDocument; change: string; draftedById: string }): Promise<void> {
  await db.warrantyTerms.create({ data: { ...draft, document: JSON.parse(JSON.stringify(draft.document)) } });
}

/** @returns whether the draft was still as its editor saw it */
export async function updateTermsDraft(db: Db, number: number, seen: Date, { validFrom, document, change }: { validFrom: Date; document: TermsDocument; change: string }, now: Date): Promise<boolean> {
  const { count } = await db.warrantyTerms.updateMany({ where: { number, inForceAt: null, updatedAt: seen }, data: { updatedAt: now, validFrom, document: JSON.parse(JSON.stringify(document)), change } });
  return count === 1;
}

/** @returns whether it was a draft, as its reader saw it */
export async function putTermsInForce(db: Db, number: number, seen: Date, putInForceById: string, now: Date): Promise<boolean> {
  const { count } = await db.warrantyTerms.updateMany({ where: { number, inForceAt: null, updatedAt: seen }, data: { inForceAt: now, putInForceById } });
  return count === 1;
}

export async function deleteTermsDraft(db: Db, number: number): Promise<boolean> {
  const { count } = await db.warrantyTerms.deleteMany({ where: { number, inForceAt: null } });
  return count === 1;
}

/** What the terms ask of a filed claim, as kept. */
export function findWarrantyFactsOfClaim(claimId: string, db: Db = database()) {
  return db.claim.findFirst({
    where: { id: claimId, stage: { not: "draft" } },
    select: {
      filedAt: true,
      fittedOn: true,
      distanceKm: true,
      hoursRun: true,
      country: true,
      filedBy: true,
      answers: true,
      fitterId: true,
      unit: { select: { shipment: { select: { shippedOn: true, order: { select: { country: true } } } } } },
      shipment: { select: { shippedOn: true, order: { select: { country: true } } } },
      kitRevision: { select: { kit: { select: { code: true } } } },
      verdicts: { where: { supersededAt: null }, select: { primaryCause: true, contributingCauses: true } },
    },
  });
}
