import "server-only";
import { EDITION_ACTS, type EditionOrigin } from "@/lib/domain/diagnosis/editions";
import type { Cause, Edition } from "@/lib/domain/diagnosis/knowledge";
import { fromStored, type StoredEdition } from "@/lib/domain/diagnosis/stored-edition";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";

const read = new Map<number, Edition>();

/** The edition of this number, as it was stored: editions never change; what an old one does not state is filled in. */
export async function loadEdition(number: number, db: Db = database()): Promise<Edition> {
  const known = read.get(number);
  if (known) return known;
  const row = await db.knowledgeEdition.findUniqueOrThrow({ where: { number } });
  // Only documents that passed the edition's schema of their day are ever stored.
  const edition = fromStored(row.document as unknown as StoredEdition);
  read.set(number, edition);
  return edition;
}

/** The edition in force: the one promoted last. Asked each time, so that a promotion holds in every process at once. */
export async function loadEditionInForce(db: Db = database()): Promise<Edition> {
  return loadEdition((await findPromotedLast(db)).number, db);
}

/** Every cause that a verdict may name: those of the edition in force, then what it no longer has, as it was last called. */
export async function loadCausesEverInForce(db: Db = database()): Promise<readonly Cause[]> {
  const promoted = await db.knowledgeEdition.findMany({ where: { promotedAt: { not: null } }, orderBy: { promotedAt: "desc" }, select: { number: true } });
  const byCode = new Map<string, Cause>();
  for (const { number } of promoted) for (const cause of (await loadEdition(number, db)).causes) if (!byCode.has(cause.code)) byCode.set(cause.code, cause);
  return [...byCode.values()];
}

/** Number of the edition in force, and since when. */
export async function findPromotedLast(db: Db = database()): Promise<{ number: number; promotedAt: Date }> {
  const { number, promotedAt } = await db.knowledgeEdition.findFirstOrThrow({
    where: { promotedAt: { not: null } },
    orderBy: { promotedAt: "desc" },
    select: { number: true, promotedAt: true },
  });
  if (!promotedAt) throw new Error("findPromotedLast was given an edition that was never promoted");
  return { number, promotedAt };
}

export interface EditionRow {
  number: number;
  name: string;
  origin: EditionOrigin;
  why: string;
  basisNumber: number | null;
  createdAt: Date;
  promotedAt: Date | null;
  discardedAt: Date | null;
  /** Null where no person did it. */
  proposedBy: { name: string } | null;
}

/** All that is known of an edition but its document. */
const ROW = {
  number: true,
  name: true,
  origin: true,
  why: true,
  basisNumber: true,
  createdAt: true,
  promotedAt: true,
  discardedAt: true,
  proposedBy: { select: { name: true } },
} as const;

/** Every edition there is, the newest first. */
export function listEditions(db: Db = database()): Promise<EditionRow[]> {
  return db.knowledgeEdition.findMany({ select: ROW, orderBy: { number: "desc" } });
}

export function findEdition(number: number, db: Db = database()): Promise<EditionRow | null> {
  return db.knowledgeEdition.findUnique({ where: { number }, select: ROW });
}

/** Nobody else may propose, promote or discard an edition until the transaction ends; reading goes on. */
export async function lockEditions(db: Db): Promise<void> {
  await db.$executeRaw`LOCK TABLE knowledge_edition IN SHARE ROW EXCLUSIVE MODE`;
}

export interface EditionToInsert {
  /** As it passed its schema; it takes the next number. */
  edition: Edition;
  origin: Exclude<EditionOrigin, "shipped">;
  basisNumber: number;
  why: string;
  proposedById: string | null;
}

/** Keeps a proposed edition under the next number, in a transaction that holds the editions. */
export async function insertEdition(db: Db, { edition, ...row }: EditionToInsert): Promise<number> {
  const number = await nextNumber(db);
  await db.knowledgeEdition.create({ data: { ...row, ...named(edition, number) } });
  return number;
}

/**
 * Keeps an edition that comes with the program, known by its name, once and under the next number, in a transaction that
 * holds the editions. The very first comes into force by itself; any later one waits for a person, like a proposal.
 */
export async function insertShippedEdition(db: Db, edition: Edition): Promise<void> {
  if (await db.knowledgeEdition.findFirst({ where: { origin: "shipped", name: edition.name }, select: { number: true } })) return;
  const number = await nextNumber(db);
  await db.knowledgeEdition.create({ data: { ...named(edition, number), origin: "shipped", promotedAt: number === 1 ? new Date() : null } });
}

async function nextNumber(db: Db): Promise<number> {
  const { _max } = await db.knowledgeEdition.aggregate({ _max: { number: true } });
  return (_max.number ?? 0) + 1;
}

const named = (edition: Edition, number: number) => ({ number, name: edition.name, document: { ...edition, number } as unknown as Prisma.InputJsonObject });

/** Puts a proposed edition in force; false where it is not proposed any more. */
export async function markPromoted(db: Db, number: number, promotedAt: Date): Promise<boolean> {
  const { count } = await db.knowledgeEdition.updateMany({ where: { number, promotedAt: null, discardedAt: null }, data: { promotedAt } });
  return count === 1;
}

/** Lays a proposed edition aside; false where it is not proposed any more. */
export async function markDiscarded(db: Db, number: number, discardedAt: Date): Promise<boolean> {
  const { count } = await db.knowledgeEdition.updateMany({ where: { number, promotedAt: null, discardedAt: null }, data: { discardedAt } });
  return count === 1;
}

/** Codes of causes and findings that any edition has ever used. */
export async function listCodesUsed(db: Db = database()): Promise<string[]> {
  const rows = await db.$queryRaw<{ code: string }[]>`
    SELECT DISTINCT one->>'code' AS code
      FROM knowledge_edition, jsonb_array_elements((document->'causes') || (document->'findings')) AS one`;
  return rows.map(({ code }) => code);
}

/** What was done to an edition, oldest first. */
export async function listEditionStory(number: number, db: Db = database()): Promise<{ at: Date; action: string; by: string | null; detail: Readonly<Record<string, unknown>> }[]> {
  const entries = await db.auditEntry.findMany({
    where: { claimId: null, action: { in: [...EDITION_ACTS] }, detail: { path: ["edition"], equals: number } },
    orderBy: { id: "asc" },
    select: { at: true, action: true, detail: true, person: { select: { name: true } } },
  });
  return entries.map(({ at, action, detail, person }) => ({ at, action, by: person?.name ?? null, detail: detail as Readonly<Record<string, unknown>> }));
}
