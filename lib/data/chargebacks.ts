import "server-only";
import { benchMinutes, type ChargebackState, costOfRemedy } from "@/lib/domain/claims/chargeback";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";

/** A turbo model, or a kit for its parts, with who makes it; null while nobody has said. */
export interface Made {
  kind: "turbo-models" | "kits";
  id: string;
  code: string;
  supplierId: string | null;
}

/** A verdict that lays it to the unit or to the kit's own parts and has not been charged back, with what it has cost. */
export interface ChargeableVerdict {
  verdictId: string;
  claimId: string;
  reference: string;
  serial: string | null;
  batch: string | null;
  cause: CauseCode;
  attribution: Attribution;
  decidedAt: Date;
  remedyMinor: number;
  carriageMinor: number;
  benchMinutes: number;
}

const MADE = { id: true, code: true, supplierId: true } as const;

/** What tells who made what a verdict is laid to. */
const MAKERS = { unit: { select: { serial: true, batch: true, turboModel: { select: MADE } } }, kitRevision: { select: { kit: { select: { ...MADE, turboModel: { select: MADE } } } } } } as const;

/**
 * Verdicts that could be charged back to a supplier, or that nobody has said the maker of. A claim that was charged under
 * an earlier verdict is not charged again. Only what is settled is: a verdict is charged once, and what is booked after
 * that would never be asked for.
 */
const chargeableTo = (supplierId: string | null): Prisma.VerdictWhereInput => ({
  supersededAt: null,
  claim: { stage: "settled", verdicts: { every: { chargedOn: null } } },
  // As `madeOf` has it.
  OR: [
    { attribution: "kit", claim: { kitRevision: { kit: { supplierId } } } },
    { attribution: "unit", claim: { unit: { turboModel: { supplierId } } } },
    { attribution: "unit", claim: { unitId: null, kitRevision: { kit: { turboModel: { supplierId } } } } },
  ],
});

/** How many verdicts could be charged back to a supplier. */
export function countChargeable(supplierId: string): Promise<number> {
  return database().verdict.count({ where: chargeableTo(supplierId) });
}

/** What nobody has said the maker of, with how many verdicts lay defects to it, the most first. */
export async function listUnmade(): Promise<(Made & { verdicts: number })[]> {
  const rows = await database().verdict.findMany({ where: chargeableTo(null), select: { attribution: true, claim: { select: MAKERS } } });
  const unmade = new Map<string, Made & { verdicts: number }>();
  for (const { attribution, claim } of rows) {
    const made = madeOf(attribution, claim.unit?.turboModel, claim.kitRevision?.kit);
    if (made) unmade.set(made.id, { ...made, verdicts: (unmade.get(made.id)?.verdicts ?? 0) + 1 });
  }
  return [...unmade.values()].sort((a, b) => b.verdicts - a.verdicts || a.code.localeCompare(b.code));
}

/** Verdicts that could be charged back to a supplier in this currency, oldest first. */
export async function listChargeable(supplierId: string, currency: string, narrowed: { most: number } | { verdicts: string[]; batches: string[] }, db: Db = database()): Promise<ChargeableVerdict[]> {
  const named: Prisma.VerdictWhereInput = "most" in narrowed ? {} : { OR: [{ id: { in: narrowed.verdicts } }, { claim: { unit: { batch: { in: narrowed.batches } } } }] };
  const rows = await db.verdict.findMany({
    where: { AND: [chargeableTo(supplierId), named] },
    ...("most" in narrowed ? { take: narrowed.most } : {}),
    orderBy: [{ decidedAt: "asc" }, { id: "asc" }],
    select: {
      id: true,
      claimId: true,
      primaryCause: true,
      attribution: true,
      decidedAt: true,
      claim: {
        select: {
          ...MAKERS,
          reference: true,
          settlements: { select: { kind: true, currency: true, sellerMinor: true, supplierMinor: true } },
          returns: { select: { inspections: { select: { startedAt: true, inspectedAt: true } } } },
        },
      },
    },
  });
  return rows.map(({ id, claimId, primaryCause, attribution, decidedAt, claim }): ChargeableVerdict => {
    const { unit } = claim;
    const minutes = benchMinutes(claim.returns.flatMap(({ inspections }) => inspections));
    return { verdictId: id, claimId, reference: claim.reference, serial: unit?.serial ?? null, batch: unit?.batch ?? null, cause: primaryCause, attribution, decidedAt, ...costOfRemedy(claim.settlements, currency), benchMinutes: minutes };
  });
}

type MadeRow = Omit<Made, "kind">;

/** The kit's own parts, or the unit's model, which the kit tells where the unit is not known. */
function madeOf(attribution: Attribution, model: MadeRow | undefined, kit: (MadeRow & { turboModel: MadeRow | null }) | undefined): Made | null {
  const [kind, of] = attribution === "kit" ? (["kits", kit] as const) : (["turbo-models", model ?? kit?.turboModel] as const);
  return of ? { kind, id: of.id, code: of.code, supplierId: of.supplierId } : null;
}

export function listSuppliers(db: Db = database()) {
  return db.supplier.findMany({ orderBy: { name: "asc" } });
}

const LINES = {
  orderBy: [{ batch: "asc" }, { serial: "asc" }, { id: "asc" }],
  include: {
    verdict: { select: { id: true, claimId: true, supersededAt: true, claim: { select: { reference: true } } } },
    answers: { orderBy: { bookedAt: "desc" }, select: { acceptedMinor: true, note: true, bookedAt: true, supersededAt: true, bookedBy: { select: { name: true } } } },
  },
} as const satisfies Prisma.Chargeback$linesArgs;

const WHOLE = { supplier: true, madeBy: { select: { name: true } }, lines: LINES } as const;

type Row = Prisma.ChargebackGetPayload<{ include: typeof WHOLE }>;

const shaped = ({ lines, ...chargeback }: Row) => ({
  ...chargeback,
  lines: lines.map((line) => ({ ...line, acceptedMinor: line.answers.find(({ supersededAt }) => supersededAt === null)?.acceptedMinor ?? null })),
});
export type KeptChargeback = ReturnType<typeof shaped>;

/** Every chargeback that is open and the last of those that are closed, with their lines, the newest first. */
export async function listChargebacks(mostClosed: number): Promise<KeptChargeback[]> {
  const db = database();
  const [open, closed] = await Promise.all([
    db.chargeback.findMany({ where: { state: { not: "closed" } }, include: WHOLE }),
    db.chargeback.findMany({ where: { state: "closed" }, orderBy: { number: "desc" }, take: mostClosed, include: WHOLE }),
  ]);
  return [...open, ...closed].sort((a, b) => b.number - a.number).map(shaped);
}

export function countClosedChargebacks(): Promise<number> {
  return database().chargeback.count({ where: { state: "closed" } });
}

export async function findChargeback(number: number, db: Db = database()): Promise<KeptChargeback | null> {
  const row = await db.chargeback.findUnique({ where: { number }, include: WHOLE });
  return row && shaped(row);
}

/** Lets what follows in this transaction happen to the chargeback one at a time. */
export async function lockChargeback(db: Db, number: number): Promise<void> {
  await db.$queryRaw`SELECT 1 FROM "chargeback" WHERE "number" = ${number} FOR UPDATE`;
}

export interface LineToInsert {
  verdictId: string;
  serial: string | null;
  batch: string | null;
  cause: CauseCode;
  remedyMinor: number;
  carriageMinor: number;
  benchMinutes: number;
  benchMinor: number;
}

/** Throws where a verdict was charged meanwhile: the rule of the data is the last word. */
export function insertChargeback(db: Db, made: { supplierId: string; currency: string; benchMinute: number; madeById: string; madeAt: Date }, lines: readonly LineToInsert[]): Promise<{ number: number }> {
  return db.chargeback.create({ data: { ...made, lines: { create: [...lines] } }, select: { number: true } });
}

/** Changes a chargeback and counts its version up. Ask with it locked. */
export async function updateChargeback(db: Db, number: number, changes: { state?: ChargebackState; sentAt?: Date; answerDueOn?: Date; closedAt?: Date; note?: string }): Promise<void> {
  await db.chargeback.update({ where: { number }, data: { ...changes, version: { increment: 1 } } });
}

export async function updateLine(db: Db, lineId: string, amounts: Pick<LineToInsert, "remedyMinor" | "carriageMinor" | "benchMinutes" | "benchMinor">): Promise<void> {
  await db.chargebackLine.update({ where: { id: lineId }, data: amounts });
}

export async function deleteLine(db: Db, chargebackId: string, lineId: string): Promise<boolean> {
  const { count } = await db.chargebackLine.deleteMany({ where: { id: lineId, chargebackId } });
  return count === 1;
}

/** A draft that is dropped leaves its verdicts free to be charged. */
export async function deleteChargeback(db: Db, number: number): Promise<void> {
  await db.chargeback.delete({ where: { number } });
}

/** Keeps what the supplier accepts of a line, in place of an earlier answer, which stays. */
export async function insertAnswer(db: Db, answer: { lineId: string; acceptedMinor: number; note: string; bookedById: string; bookedAt: Date }): Promise<void> {
  await db.chargebackAnswer.updateMany({ where: { lineId: answer.lineId, supersededAt: null }, data: { supersededAt: answer.bookedAt } });
  await db.chargebackAnswer.create({ data: answer });
}

/** What is booked and spent at the bench for the claims of these verdicts, as it stands now. */
export async function listCosts(db: Db, verdictIds: readonly string[], currency: string): Promise<ReadonlyMap<string, Pick<LineToInsert, "remedyMinor" | "carriageMinor" | "benchMinutes">>> {
  const rows = await db.verdict.findMany({
    where: { id: { in: [...verdictIds] } },
    select: { id: true, claim: { select: { settlements: { select: { kind: true, currency: true, sellerMinor: true, supplierMinor: true } }, returns: { select: { inspections: { select: { startedAt: true, inspectedAt: true } } } } } } },
  });
  return new Map(rows.map(({ id, claim }) => [id, { ...costOfRemedy(claim.settlements, currency), benchMinutes: benchMinutes(claim.returns.flatMap(({ inspections }) => inspections)) }]));
}
