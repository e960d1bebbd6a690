import "server-only";
import type { PairUnit } from "@/lib/domain/claims/pair-units";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";
import { type Db, database } from "./client";

/** Locks two claims in one order, so that two people joining them crosswise never wait for each other. */
export async function lockClaims(db: Db, claimIds: readonly [string, string]): Promise<void> {
  await db.$queryRaw`SELECT 1 FROM "claim" WHERE "id" = ANY(${[...claimIds]}::uuid[]) ORDER BY "id" FOR UPDATE`;
}

/** A filed claim by its reference, for joining it with another. */
export function findClaimByReference(reference: string, db: Db = database()) {
  return db.claim.findFirst({ where: { reference, stage: { not: "draft" } }, select: { id: true, reference: true, stage: true, contactEmail: true } });
}

/** Whether a unit of this claim is on its way or here: it cannot be given to another claim. */
export async function hasOpenReturn(db: Db, claimId: string): Promise<boolean> {
  return (await db.return.count({ where: { claimId, state: { in: ["authorised", "in_carriage", "received", "on_the_bench"] } } })) > 0;
}

/** What was merged into a claim goes on into another. */
export async function moveMerged(db: Db, fromId: string, intoId: string): Promise<void> {
  await db.claim.updateMany({ where: { mergedIntoId: fromId }, data: { mergedIntoId: intoId } });
}

/** When a claim was merged last. */
export async function findMergedAt(db: Db, claimId: string): Promise<Date | null> {
  return (await db.auditEntry.findFirst({ where: { claimId, action: "merge" }, orderBy: { id: "desc" }, select: { at: true } }))?.at ?? null;
}

/** Whether a claim was decided after this moment. */
export async function isDecidedSince(db: Db, claimId: string, since: Date): Promise<boolean> {
  return (await db.verdict.count({ where: { claimId, decidedAt: { gt: since } } })) > 0;
}

const pairOf = (one: string, other: string) => (one < other ? { claimId: one, otherId: other } : { claimId: other, otherId: one });

/** Links two claims; false where they are linked already. */
export async function insertLink(db: Db, one: string, other: string, link: { why: string; linkedById: string }): Promise<boolean> {
  const { count } = await db.linkedClaim.createMany({ data: [{ ...pairOf(one, other), ...link }], skipDuplicates: true });
  return count === 1;
}

export async function deleteLink(db: Db, one: string, other: string): Promise<boolean> {
  const { count } = await db.linkedClaim.deleteMany({ where: pairOf(one, other) });
  return count === 1;
}

/** The claims linked to this one, the newest link first. */
export async function listLinked(claimId: string) {
  const other = { select: { id: true, reference: true, stage: true, filedAt: true } } as const;
  const links = await database().linkedClaim.findMany({
    where: { OR: [{ claimId }, { otherId: claimId }] },
    orderBy: { linkedAt: "desc" },
    select: { claimId: true, why: true, linkedAt: true, linkedBy: { select: { name: true } }, claim: other, other },
  });
  return links.map(({ claimId: first, claim, other: second, why, linkedAt, linkedBy }) => ({ ...(first === claimId ? second : claim), why, linkedAt, by: linkedBy.name }));
}

/** Which unit of a compound pair an open claim is about, with the serials of both. */
export async function updatePairUnit(db: Db, claimId: string, pair: { pairUnit: PairUnit | null; serial: string | null; otherSerial: string | null }): Promise<boolean> {
  const { count } = await db.claim.updateMany({ where: { id: claimId, stage: { in: [...QUEUE_STAGES] } }, data: { ...pair, version: { increment: 1 } } });
  return count === 1;
}
