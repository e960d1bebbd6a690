import "server-only";
import type { PlayLimits } from "@/lib/domain/claims/play-readings";
import type { DispositionKind } from "@/lib/domain/claims/dispositions";
import type { ReturnState } from "@/lib/domain/claims/stages";
import { type Db, database } from "./client";
import { vehicleName } from "./purchases";

/** States in which a unit is on its way or here. */
const OPEN = ["authorised", "in_carriage", "received", "on_the_bench"] as const satisfies readonly ReturnState[];

const KIT = { select: { revision: true, kit: { select: { code: true, name: true, turboModel: true } } } } as const;
const CLAIM = { select: { reference: true, stage: true, serial: true, vehicleWords: true, vehicle: true, kitRevision: KIT, unit: { select: { serial: true, batch: true, turboModel: true } } } } as const;

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
  /** When somebody said that it is the unit of the claim though its serial is another. */
  sameUnitAt: Date | null;
  /** What was decided about it last. */
  disposition: StandingDisposition | null;
  /** Of the unit as sold, or as the customer read it. */
  serialExpected: string | null;
  kit: string | null;
  vehicle: string | null;
  turbo: TurboLimits | null;
}

type Row = Awaited<ReturnType<typeof rows>>[number];

function rows(where: { claimId?: string; open?: boolean }, db: Db = database()) {
  const { claimId, open } = where;
  return db.return.findMany({
    where: { ...(claimId ? { claimId } : {}), ...(open ? { state: { in: [...OPEN] } } : {}) },
    orderBy: [{ receivedAt: { sort: "asc", nulls: "last" } }, { expiresAt: "asc" }],
    take: 200,
    include: { claim: CLAIM, dispositions: { where: { supersededAt: null }, select: { kind: true, keepUntil: true, decidedAt: true } } },
  });
}

function expectedUnit({ claim, dispositions: [disposition], ...row }: Row): ExpectedUnit {
  return {
    ...row,
    disposition: disposition ?? null,
    reference: claim.reference,
    serialExpected: claim.unit?.serial ?? claim.serial,
    kit: claim.kitRevision ? `${claim.kitRevision.kit.code} ${claim.kitRevision.kit.name}, rev ${claim.kitRevision.revision}` : null,
    vehicle: claim.vehicle ? vehicleName(claim.vehicle) : claim.vehicleWords,
    turbo: claim.unit?.turboModel ?? claim.kitRevision?.kit.turboModel ?? null,
  };
}

/** The units that are expected or here: those here first, the longest here first. */
export async function listOpenReturns(): Promise<ExpectedUnit[]> {
  return (await rows({ open: true })).map(expectedUnit);
}

/** Every return of a claim, with what the bench wrote. */
export async function listReturnsOfClaim(claimId: string): Promise<ExpectedUnit[]> {
  return (await rows({ claimId })).map(expectedUnit);
}

/** The return of a claim whose unit is here and not yet done with, or null. */
export async function findUnitOnBench(claimId: string, db?: Db): Promise<ExpectedUnit | null> {
  const [row] = (await rows({ claimId, open: true }, db)).filter(({ state }) => state === "received" || state === "on_the_bench");
  return row ? expectedUnit(row) : null;
}

/** A return with the serial its claim leads one to expect. */
export async function findReturn(db: Db, returnId: string) {
  const row = await db.return.findUnique({ where: { id: returnId }, select: { id: true, claimId: true, claim: { select: { serial: true, unit: { select: { serial: true } } } } } });
  return row && { id: row.id, claimId: row.claimId, serialExpected: row.claim.unit?.serial ?? row.claim.serial };
}

/** The return of a claim whose unit is on its way or here, or null; a claim has one at most. */
export function findOpenReturn(db: Db, claimId: string) {
  return db.return.findFirst({ where: { claimId, state: { in: [...OPEN] } }, select: { id: true, number: true, receivedAt: true } });
}

/** A unit that is not here yet may come later. */
export async function extendReturn(db: Db, returnId: string, expiresAt: Date): Promise<void> {
  await db.return.update({ where: { id: returnId }, data: { expiresAt } });
}

export async function insertReturn(db: Db, added: { claimId: string; number: string; authorisedById: string; authorisedAt: Date; expiresAt: Date }): Promise<void> {
  await db.return.create({ data: added });
}

/** The unit is here; false when it is here already, or was not expected any more. */
export async function markReceived(db: Db, returnId: string, serialSeen: string | null, now: Date): Promise<boolean> {
  const { count } = await db.return.updateMany({ where: { id: returnId, state: { in: ["authorised", "in_carriage"] } }, data: { state: "received", receivedAt: now, serialSeen } });
  return count === 1;
}

/** Another serial was read on a unit that is here; false when it is not here, or was inspected meanwhile. */
export async function updateSerialSeen(db: Db, returnId: string, serialSeen: string | null): Promise<boolean> {
  const { count } = await db.return.updateMany({ where: { id: returnId, state: { in: ["received", "on_the_bench"] } }, data: { serialSeen } });
  return count === 1;
}

/** The unit has been inspected; false when it is not here, was done with meanwhile, or another serial is read on it now. */
export async function markDispositioned(db: Db, { id, serialSeen }: Pick<ExpectedUnit, "id" | "serialSeen">): Promise<boolean> {
  const { count } = await db.return.updateMany({ where: { id, serialSeen, state: { in: ["received", "on_the_bench"] } }, data: { state: "dispositioned" } });
  return count === 1;
}

export async function insertBenchInspection(db: Db, inspection: { returnId: string; inspectedById: string; note: string; inspectedAt: Date }): Promise<{ id: string }> {
  return db.benchInspection.create({ data: inspection, select: { id: true } });
}

/** What the bench wrote about a claim's units beside the findings, newest first. */
export function listBenchInspections(claimId: string) {
  return database().benchInspection.findMany({
    where: { return: { claimId } },
    orderBy: { inspectedAt: "desc" },
    select: { id: true, returnId: true, inspectedAt: true, note: true, inspectedBy: { select: { name: true } }, findings: { where: { measured: { not: null } }, select: { code: true, measured: true } }, _count: { select: { findings: true } } },
  });
}
