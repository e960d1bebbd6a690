import "server-only";
import type { ParcelCondition, PlaceKind } from "@/lib/domain/claims/custody";
import type { ParcelReason } from "@/lib/domain/claims/parcels";
import { type Db, database } from "./client";

export interface KeptPlace {
  code: string;
  name: string;
  kind: PlaceKind;
  position: number;
  retiredAt: Date | null;
}

const PERSON = { select: { name: true } } as const;
const STEPS = { orderBy: { number: "asc" }, include: { from: true, to: true, person: PERSON } } as const;

/** Every place, those given up too, in the seller's order. */
export function listPlaces(db: Db = database()): Promise<KeptPlace[]> {
  return db.place.findMany({ orderBy: [{ position: "asc" }, { code: "asc" }] });
}

/** The place with this code, if units may be brought there, or null. */
export function findPlace(db: Db, code: string): Promise<KeptPlace | null> {
  return db.place.findFirst({ where: { code, retiredAt: null } });
}

/** The first place of a kind; null when the seller has given up all of them. */
export function findFirstPlace(db: Db, kind: PlaceKind): Promise<KeptPlace | null> {
  return db.place.findFirst({ where: { kind, retiredAt: null }, orderBy: [{ position: "asc" }, { code: "asc" }] });
}

/** False when another place has this code. */
export async function insertPlace(db: Db, place: Omit<KeptPlace, "retiredAt">): Promise<boolean> {
  const { count } = await db.place.createMany({ data: [place], skipDuplicates: true });
  return count === 1;
}

/** Gives a place up, or takes it into use again. False when there is no such place. */
export async function updatePlace(db: Db, code: string, changes: { retiredAt: Date | null }): Promise<boolean> {
  const { count } = await db.place.updateMany({ where: { code }, data: changes });
  return count === 1;
}

/** Lets what follows in this transaction happen to the parcel one at a time. */
export async function lockParcel(db: Db, parcelId: string): Promise<void> {
  await db.$queryRaw`SELECT 1 FROM "parcel" WHERE "id" = ${parcelId}::uuid FOR UPDATE`;
}

/** A parcel with its steps, whose it is and what is known of that. */
export function findParcel(where: { id: string } | { number: string } | { returnId: string }, db: Db = database()) {
  return db.parcel.findUnique({
    where,
    include: {
      receivedBy: PERSON,
      closedBy: PERSON,
      claim: { select: { id: true, reference: true } },
      return: { select: { id: true, claimId: true, number: true, state: true, serialSeen: true, sameUnitAt: true, claim: { select: { id: true, reference: true, stage: true, serial: true, unit: { select: { serial: true } } } }, dispositions: { where: { supersededAt: null }, select: { kind: true } } } },
      handovers: STEPS,
    },
  });
}
export type KeptParcel = NonNullable<Awaited<ReturnType<typeof findParcel>>>;

/** Parcels about which somebody has to decide, the longest here first: as many as the house holds. */
export function listStrayParcels() {
  return database().parcel.findMany({ where: { returnId: null, closedAt: null }, orderBy: { arrivedAt: "asc" }, include: { claim: { select: { id: true, reference: true } }, handovers: { orderBy: { number: "desc" }, take: 1, include: { to: true } } } });
}

/** Parcels that came about a claim and are not its unit, newest first. */
export function listParcelsOfClaim(claimId: string) {
  return database().parcel.findMany({ where: { claimId, returnId: null }, orderBy: { arrivedAt: "desc" } });
}

/** Where the units of a claim's returns have been. */
export function listCustodyOfClaim(claimId: string) {
  return database().parcel.findMany({ where: { return: { claimId } }, include: { handovers: STEPS } });
}

export function insertParcel(
  db: Db,
  parcel: { number: string; returnId: string } | { id: string; number: string; reason: ParcelReason; claimId: string | null; holds: string; sender: string },
  at: { serial: string | null; receivedById: string; arrivedAt: Date },
): Promise<{ id: string }> {
  return db.parcel.create({ data: { ...parcel, ...at }, select: { id: true } });
}

/** The parcel holds the unit of this return after all. */
export async function giveParcelToReturn(db: Db, parcelId: string, returnId: string): Promise<void> {
  await db.parcel.update({ where: { id: parcelId }, data: { returnId, reason: null, claimId: null } });
}

/** The parcel does not hold the unit of its return. */
export async function takeParcelFromReturn(db: Db, parcelId: string, why: { number: string; reason: ParcelReason; claimId: string; holds: string; serial: string | null }): Promise<void> {
  await db.parcel.update({ where: { id: parcelId }, data: { ...why, returnId: null } });
}

/** False when somebody has decided about it meanwhile. */
export async function closeKeptParcel(db: Db, parcelId: string, closing: { closedAt: Date; closedById: string; closing: string }): Promise<boolean> {
  const { count } = await db.parcel.updateMany({ where: { id: parcelId, returnId: null, closedAt: null }, data: closing });
  return count === 1;
}

export interface NewHandover {
  parcelId: string;
  /** One more than the last. */
  number: number;
  at: Date;
  personId: string;
  fromCode: string | null;
  toCode: string;
  condition: ParcelCondition | null;
  note: string;
}

export async function insertHandover(db: Db, step: NewHandover): Promise<void> {
  await db.handover.create({ data: step });
}
