import "server-only";
import { PAIR_UNIT_OF, type PairUnit } from "@/lib/domain/claims/pair-units";
import type { PlayLimits } from "@/lib/domain/claims/play-readings";
import type { DispositionKind } from "@/lib/domain/claims/dispositions";
import type { PlaceKind } from "@/lib/domain/claims/custody";
import { CARRIAGE_DAYS } from "@/lib/domain/claims/return-dates";
import { pairUnitMeasured, serialAwaited } from "@/lib/domain/claims/serials";
import type { ReturnState } from "@/lib/domain/claims/stages";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";
import { vehicleName } from "./purchases";

/** States in which a unit is here. */
const HERE = ["received", "on_the_bench"] as const satisfies readonly ReturnState[];

const KIT = { select: { revision: true, kit: { select: { code: true, name: true, turboModel: true } } } } as const;
const CLAIM = { select: { reference: true, stage: true, serial: true, pairUnit: true, otherSerial: true, vehicleWords: true, vehicle: true, kitRevision: KIT, unit: { select: { serial: true, batch: true, turboModel: true } } } } as const;

export interface TurboLimits extends PlayLimits {
  name: string;
}

export interface StandingDisposition {
  kind: DispositionKind;
  keepUntil: Date | null;
  decidedAt: Date;
}

export interface ExpectedUnit {
  id: string;
  claimId: string;
  reference: string;
  number: string;
  state: ReturnState;
  authorisedAt: Date;
  expiresAt: Date;
  receivedAt: Date | null;
  serialSeen: string | null;
  /** Of the other unit of a pair, where that has come too. */
  otherSerialSeen: string | null;
  /** When somebody said that it is the unit of the claim though its serial is another. */
  sameUnitAt: Date | null;
  /** How they know. */
  sameUnitNote: string;
  carrier: string | null;
  trackingNumber: string | null;
  sentAt: Date | null;
  remindedAt: Date | null;
  /** Its parcel and where that is, once it has come. */
  parcel: { id: string; at: { code: string; name: string; kind: PlaceKind; since: Date } | null } | null;
  /** Who is inspecting it, and whether an inspection of it has been finished. */
  bench: { inspector: string | null; isInspected: boolean };
  /** What was decided about it last. */
  disposition: StandingDisposition | null;
  /** Of the unit as sold, or as the customer read it. */
  serialExpected: string | null;
  /** Which unit of a compound pair the claim is about, and the serial of the pair's other one. */
  pairUnit: PairUnit | null;
  otherSerial: string | null;
  kit: string | null;
  vehicle: string | null;
  /** What was sold, as a unit of a pair. */
  soldAs: "large" | "small" | null;
  /** The model of what the bench measures; null where that is the pair's other unit, which is of another model. */
  turbo: TurboLimits | null;
}

type Row = Awaited<ReturnType<typeof rows>>[number];

function rows(where: Prisma.ReturnWhereInput, db: Db = database()) {
  return db.return.findMany({
    where,
    orderBy: [{ receivedAt: { sort: "asc", nulls: "last" } }, { expiresAt: "asc" }],
    include: { claim: CLAIM, parcel: { select: { id: true, handovers: { orderBy: { number: "desc" }, take: 1, include: { to: true } } } }, inspections: { select: { inspectedAt: true, inspectedBy: { select: { name: true } } } }, dispositions: { where: { supersededAt: null }, select: { kind: true, keepUntil: true, decidedAt: true } } },
  });
}

function expectedUnit({ claim, parcel, inspections, dispositions: [disposition], ...row }: Row): ExpectedUnit {
  const last = parcel?.handovers[0];
  const sold = claim.unit?.turboModel ?? claim.kitRevision?.kit.turboModel ?? null;
  const soldAs = sold && PAIR_UNIT_OF[sold.staging];
  const pair = { serialExpected: serialAwaited(claim), pairUnit: claim.pairUnit, otherSerial: claim.otherSerial };
  const measured = pairUnitMeasured({ ...row, ...pair }, soldAs);
  return {
    ...row,
    ...pair,
    parcel: parcel && { id: parcel.id, at: last ? { ...last.to, since: last.at } : null },
    bench: { inspector: inspections.find(({ inspectedAt }) => inspectedAt === null)?.inspectedBy.name ?? null, isInspected: inspections.some(({ inspectedAt }) => inspectedAt !== null) },
    disposition: disposition ?? null,
    reference: claim.reference,
    kit: claim.kitRevision ? `${claim.kitRevision.kit.code} ${claim.kitRevision.kit.name}, rev ${claim.kitRevision.revision}` : null,
    vehicle: claim.vehicle ? vehicleName(claim.vehicle) : claim.vehicleWords,
    soldAs,
    turbo: measured === null || soldAs === null || measured === soldAs ? sold : null,
  };
}

/** The units that are here, the longest here first: as many as the house holds. */
export async function listUnitsHere(): Promise<ExpectedUnit[]> {
  return (await rows({ state: { in: [...HERE] } })).map(expectedUnit);
}

export interface AwaitedUnits {
  total: number;
  overdue: number;
  /** No more than were asked for, what is due first first. */
  units: readonly ExpectedUnit[];
}

/** The units that may still come. Due is what `daysOverdue` of the domain counts from. */
export async function listAwaitedUnits(now: Date, most: number): Promise<AwaitedUnits> {
  const first = await database().$queryRaw<{ id: string; total: number; overdue: number }[]>`
    SELECT "id", count(*) OVER ()::int AS "total", count(*) FILTER (WHERE "due" < ${now}) OVER ()::int AS "overdue" FROM
      (SELECT "id", CASE WHEN "state" = 'in_carriage' AND "sent_at" IS NOT NULL THEN "sent_at" + ${CARRIAGE_DAYS} * interval '24 hours' ELSE "expires_at" END AS "due"
       FROM "return" WHERE "state" IN ('authorised', 'in_carriage')) AS awaited
    ORDER BY "due", "id" LIMIT ${most}`;
  const units = new Map((await rows({ id: { in: first.map(({ id }) => id) } })).map((row) => [row.id, expectedUnit(row)]));
  return { total: first[0]?.total ?? 0, overdue: first[0]?.overdue ?? 0, units: first.flatMap(({ id }) => units.get(id) ?? []) };
}

/** Every return of a claim, with what the bench wrote. */
export async function listReturnsOfClaim(claimId: string): Promise<ExpectedUnit[]> {
  return (await rows({ claimId })).map(expectedUnit);
}

/** The return with this number, or null. */
export async function findUnitByNumber(number: string): Promise<ExpectedUnit | null> {
  const [row] = await rows({ number });
  return row ? expectedUnit(row) : null;
}

/** The return of a claim whose unit is here and not yet done with, or null. */
export async function findUnitOnBench(claimId: string, db?: Db): Promise<ExpectedUnit | null> {
  const [row] = await rows({ claimId, state: { in: [...HERE] } }, db);
  return row ? expectedUnit(row) : null;
}

/** A return with the serials its claim leads one to expect, by its id or its number. */
export async function findReturn(db: Db, where: { id: string } | { number: string }) {
  const row = await db.return.findUnique({ where, include: { claim: { select: { stage: true, reference: true, serial: true, otherSerial: true, unit: { select: { serial: true } } } } } });
  if (!row) return null;
  const { claim, ...kept } = row;
  return { ...kept, reference: claim.reference, stage: claim.stage, serialExpected: serialAwaited(claim), otherSerial: claim.otherSerial };
}

/** The return of a claim that is not yet done with, also one that has run out, or null; a claim has one at most. */
export function findOpenReturn(db: Db, claimId: string) {
  return db.return.findFirst({ where: { claimId, state: { not: "dispositioned" } }, select: { id: true, number: true, state: true, receivedAt: true } });
}

/** The returns whose unit is still expected and has this serial, or the other one of its pair; letters and digits alone count. */
export function listExpectedBySerial(serial: string): Promise<{ number: string; reference: string }[]> {
  return database().$queryRaw<{ number: string; reference: string }[]>`
    SELECT r."number", c."reference" FROM "return" r JOIN "claim" c ON c."id" = r."claim_id" LEFT JOIN "unit" u ON u."id" = c."unit_id"
    WHERE r."state" IN ('authorised', 'in_carriage', 'expired') AND regexp_replace(upper(${serial}), '[^[:alnum:]]', '', 'g') IN
      (SELECT regexp_replace(upper(known), '[^[:alnum:]]', '', 'g') FROM unnest(ARRAY[u."serial", c."serial", c."other_serial"]) AS known)
    ORDER BY r."authorised_at" DESC LIMIT 5`;
}

export async function insertReturn(db: Db, added: { claimId: string; number: string; authorisedById: string; authorisedAt: Date; expiresAt: Date }): Promise<{ id: string }> {
  return db.return.create({ data: added, select: { id: true } });
}

/** The newest return of a claim, with its label's sender, or null. */
export function findLastReturn(claimId: string) {
  return database().return.findFirst({ where: { claimId }, orderBy: { authorisedAt: "desc" } });
}

/** The claim of a return with this number, or that has the same signs for its own reference, or null. */
export async function findClaimIdByNumber(db: Db, returnNumber: string): Promise<string | null> {
  const claim = await db.claim.findFirst({ where: { stage: { not: "draft" }, OR: [{ returns: { some: { number: returnNumber } } }, { reference: returnNumber.slice(2) }] }, select: { id: true } });
  return claim?.id ?? null;
}

/** Returns that wait for a reminder or an end: what is authorised and has its last day before this one. */
export function listReturnsNearTheirEnd(before: Date) {
  return database().return.findMany({ where: { state: "authorised", expiresAt: { lt: before } }, orderBy: { expiresAt: "asc" }, select: { id: true, claimId: true } });
}

/** Changes what is kept of a return beside its state. */
export async function updateReturn(db: Db, returnId: string, changes: Prisma.ReturnUncheckedUpdateInput): Promise<void> {
  await db.return.update({ where: { id: returnId }, data: changes });
}

/** Other serials were read on what is here; false when it is not here, or was inspected meanwhile. */
export async function updateSerialsSeen(db: Db, returnId: string, seen: { serialSeen: string | null; otherSerialSeen?: string | null }): Promise<boolean> {
  const { count } = await db.return.updateMany({ where: { id: returnId, state: { in: [...HERE] } }, data: seen });
  return count === 1;
}

/** What the bench wrote about a claim's units beside the findings, newest first. */
export function listBenchInspections(claimId: string) {
  return database().benchInspection.findMany({
    where: { return: { claimId } },
    orderBy: { inspectedAt: "desc" },
    select: { id: true, returnId: true, inspectedAt: true, note: true, inspectedBy: { select: { name: true } }, findings: { where: { measured: { not: null } }, select: { code: true, measured: true } }, _count: { select: { findings: true } } },
  });
}
