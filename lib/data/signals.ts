import "server-only";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { type Month, monthsLater } from "@/lib/domain/reporting/month";
import type { Signal } from "@/lib/domain/reporting/signals";
import type { SignalAct } from "@/lib/domain/reporting/signals-acts";
import type { Effect } from "@/lib/domain/reporting/signals-effect";
import type { WatchSummary } from "@/lib/domain/reporting/signals-look";
import type { SignalScope } from "@/lib/domain/reporting/signals-scopes";
import type { ClaimsFiled, ShippedAndClaimed, UnitsShipped } from "@/lib/domain/reporting/signals-world";
import { LOCKS } from "./advisory-locks";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";

/** Figures of a signal at one look. */
export type SignalFigures = Pick<Signal, "claims" | "expected" | "ratio" | "falseDiscoveryRate" | "unitsShipped" | "unitMonthsInService" | "since"> & {
  /** Which months of shipping it was told of; null: all. */
  shippedFrom: Month | null;
  alsoSeenIn: readonly SignalScope[];
};

export interface SignalDecided {
  number: number;
  act: SignalAct;
  note: string;
  holdsFrom: Month | null;
  /** The revision that was shipped. */
  revision: { id: string; name: string } | null;
  by: string;
  at: Date;
}

export interface SignalKept {
  id: string;
  scope: SignalScope;
  cause: CauseCode;
  firstSeenAt: Date;
  seenAt: Date;
  standsOut: boolean;
  looks: number;
  place: number;
  firstFigures: SignalFigures;
  figures: SignalFigures;
  watch: WatchSummary | null;
  effect: Effect | null;
  act: SignalAct | null;
  version: number;
  /** The newest first. */
  decisions: readonly SignalDecided[];
}

/**
 * Units shipped and claims filed, as the cells and the lines of claims have them: by batch, cause and month of filing at
 * once there would be as many cells as claims. Left out are claims without a shipment, which nothing is known to divide
 * by, and what was found to be normal: it is no fault, and a set of two stages always shows more of it.
 */
export async function readSales(timeZone: string, today: string): Promise<ShippedAndClaimed> {
  const until = `${monthsLater(today.slice(0, 7), 1)}-01`;
  const [shipped, claims] = await Promise.all([
    database().$queryRaw<UnitsShipped[]>`
      SELECT r.kit_id AS "kitId", cell.kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", batch, to_char(month, 'YYYY-MM') AS "month", units
      FROM shipped_cell AS cell JOIN kit_revision AS r ON r.id = cell.kit_revision_id WHERE units > 0 AND month < ${until}::date`,
    database().$queryRaw<ClaimsFiled[]>`
      SELECT r.kit_id AS "kitId", line.kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", batch, to_char(month, 'YYYY-MM') AS "month",
        to_char(filed, 'YYYY-MM') AS "filed", cause, claims
      FROM (
        SELECT kit_revision_id, vehicle_id, batch, month, date_trunc('month', filed_at AT TIME ZONE ${timeZone})::date AS filed, cause, count(*)::int AS claims
        FROM report_claim WHERE month IS NOT NULL AND outcome NOT IN ('ended', 'normal') GROUP BY 1, 2, 3, 4, 5, 6
      ) AS line JOIN kit_revision AS r ON r.id = line.kit_revision_id`,
  ]);
  return { shipped, claims, today };
}

/** Nobody else may keep what a look found, or decide about it, until the transaction ends. */
export async function lockSignals(db: Db): Promise<void> {
  await db.$executeRaw`SELECT pg_advisory_xact_lock(${LOCKS.signals})`;
}

const WITH_DECISIONS = {
  decisions: { orderBy: { number: "desc" }, include: { decidedBy: { select: { name: true } }, kitRevision: { select: { id: true, revision: true } } } },
} satisfies Prisma.SignalInclude;

/** All that ever stood out, as they stood on the newest list. */
export async function listSignals(db: Db = database()): Promise<SignalKept[]> {
  const rows = await db.signal.findMany({ orderBy: [{ standsOut: "desc" }, { place: "asc" }, { firstSeenAt: "desc" }, { id: "asc" }], include: WITH_DECISIONS });
  return rows.map(kept);
}

/** Those that stand out now, the surest first. */
export async function listStandingSignals(): Promise<SignalKept[]> {
  const rows = await database().signal.findMany({ where: { standsOut: true }, orderBy: [{ place: "asc" }, { id: "asc" }], include: WITH_DECISIONS });
  return rows.map(kept);
}

export async function findSignal(id: string, db: Db = database()): Promise<SignalKept | null> {
  const row = await db.signal.findUnique({ where: { id }, include: WITH_DECISIONS });
  return row && kept(row);
}

/** How many stand out and wait for a decision. */
export function countWaitingSignals(): Promise<number> {
  return database().signal.count({ where: { act: null, standsOut: true } });
}

function kept({ kitId, kitRevisionId, vehicleId, batch, firstFigures, figures, watch, effect, decisions, ...signal }: Prisma.SignalGetPayload<{ include: typeof WITH_DECISIONS }>): SignalKept {
  const now = figures as unknown as SignalFigures;
  return {
    ...signal,
    scope: { kitId, kitRevisionId, vehicleId, batch, shippedFrom: now.shippedFrom },
    // Only what this file has put in is ever stored in these.
    firstFigures: firstFigures as unknown as SignalFigures,
    figures: now,
    watch: watch as unknown as WatchSummary | null,
    effect: effect as unknown as Effect | null,
    decisions: decisions.map(({ number, act, note, holdsFrom, kitRevision, decidedBy, decidedAt }) => ({
      number,
      act,
      note,
      holdsFrom: holdsFrom && monthOf(holdsFrom),
      revision: kitRevision && { id: kitRevision.id, name: kitRevision.revision },
      by: decidedBy.name,
      at: decidedAt,
    })),
  };
}

/** Whether a revision is one of this kit's. */
export async function isRevisionOf(db: Db, kitRevisionId: string, kitId: string | null): Promise<boolean> {
  return kitId !== null && (await db.kitRevision.count({ where: { id: kitRevisionId, kitId } })) > 0;
}

/** What one look leaves with a signal. */
export interface SignalSeen {
  signal: Signal;
  place: number;
  watch: WatchSummary | null;
  effect: Effect | null;
}

export async function insertSignal(db: Db, { signal, place, watch }: SignalSeen, at: Date): Promise<void> {
  const figures = json(figuresOf(signal));
  await db.signal.create({ data: { ...partOf(signal), cause: signal.cause, firstSeenAt: at, seenAt: at, standsOut: true, looks: 1, place, firstFigures: figures, figures, ...(watch ? { watch: json(watch) } : {}) } });
}

/** A signal stands out again: its figures are those of now, and it may be told under another part of the sales. */
export async function updateSignal(db: Db, id: string, { signal, place, watch, effect }: SignalSeen, { at, isFormal }: { at: Date; isFormal: boolean }): Promise<void> {
  await db.signal.update({
    where: { id },
    data: { ...partOf(signal), seenAt: at, standsOut: true, place, figures: json(figuresOf(signal)), ...(watch ? { watch: json(watch) } : {}), ...(effect ? { effect: json(effect) } : {}), ...(isFormal ? { looks: { increment: 1 } } : {}) },
  });
}

/** A signal stands out no longer; its last figures stay. */
export async function fadeSignal(db: Db, id: string, effect: Effect | null): Promise<void> {
  await db.signal.update({ where: { id }, data: { standsOut: false, ...(effect ? { effect: json(effect) } : {}) } });
}

/**
 * Marks a signal with what was done.
 *
 * @param version the one that the person saw
 * @returns whether it was that still
 */
export async function decideSignal(
  db: Db,
  id: string,
  version: number,
  decision: { act: SignalAct; note: string; holdsFrom: Month | null; kitRevisionId: string | null; personId: string; at: Date },
): Promise<boolean> {
  const { act, note, holdsFrom, kitRevisionId, personId, at } = decision;
  // What came of the last act says nothing about this one.
  const moved = await db.$executeRaw`UPDATE signal SET act = ${act}::signal_act, version = version + 1, effect = NULL WHERE id = ${id}::uuid AND version = ${version}`;
  if (moved === 0) return false;
  await db.signalDecision.create({ data: { signalId: id, number: version + 1, act, note, holdsFrom: holdsFrom === null ? null : firstDayOf(holdsFrom), kitRevisionId, decidedById: personId, decidedAt: at } });
  return true;
}

export interface SignalLook {
  lookedAt: Date;
  isFormal: boolean;
  /** Parts of the sales, each by each cause. */
  lookedInto: number;
  standingOut: number;
  raised: number;
  unitsShipped: number;
  claims: number;
}

export async function insertLook(db: Db, { lookedAt, today, ...look }: SignalLook & { today: string; tookMs: number }): Promise<string> {
  const { id } = await db.signalLook.create({ data: { ...look, lookedAt, month: firstDayOf(today.slice(0, 7)) }, select: { id: true } });
  return id;
}

/** Whether new signals were raised in this month already. */
export async function wasLookedAtFormally(db: Db, month: Month): Promise<boolean> {
  return (await db.signalLook.count({ where: { isFormal: true, month: firstDayOf(month) } })) > 0;
}

export interface Looks {
  /** Null before the first. */
  newest: SignalLook | null;
  newestFormal: SignalLook | null;
  /** Formal ones so far. */
  formal: number;
}

export async function findLooks(): Promise<Looks> {
  const [newest, newestFormal, formal] = await Promise.all([
    database().signalLook.findFirst({ orderBy: { lookedAt: "desc" } }),
    database().signalLook.findFirst({ where: { isFormal: true }, orderBy: { lookedAt: "desc" } }),
    database().signalLook.count({ where: { isFormal: true } }),
  ]);
  return { newest, newestFormal, formal };
}

/**
 * Gives the worker a look to make. Of those of one kind that still wait one is kept.
 *
 * @param isFormal whether new signals are raised even if they were in this month already
 */
export async function queueLook(db: Db, isFormal: boolean): Promise<void> {
  await db.$executeRaw`SELECT graphile_worker.add_job('look-for-signals', json_build_object('isFormal', ${isFormal}::boolean), job_key := ${`look-for-signals:${isFormal ? "formal" : "between"}`}, max_attempts := 3)`;
}

/** Who is told of new signals. */
export function listProductManagers(db: Db): Promise<{ id: string; name: string; email: string }[]> {
  return db.person.findMany({ where: { role: "product", disabledAt: null }, orderBy: { id: "asc" }, select: { id: true, name: true, email: true } });
}

function partOf({ scope: { kitId, kitRevisionId, vehicleId, batch } }: Signal) {
  return { kitId, kitRevisionId, vehicleId, batch };
}

function figuresOf({ claims, expected, ratio, falseDiscoveryRate, unitsShipped, unitMonthsInService, since, scope, alsoSeenIn }: Signal): SignalFigures {
  return { claims, expected, ratio, falseDiscoveryRate, unitsShipped, unitMonthsInService, since, shippedFrom: scope.shippedFrom, alsoSeenIn };
}

const json = (value: object) => value as unknown as Prisma.InputJsonObject;
const firstDayOf = (month: Month) => new Date(`${month}-01`);
const monthOf = (day: Date): Month => day.toISOString().slice(0, 7);
