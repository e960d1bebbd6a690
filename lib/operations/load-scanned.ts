import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findParcel, type KeptParcel, type KeptPlace, listPlaces } from "@/lib/data/custody";
import { findClaimIdByNumber, findOpenReturn, findUnitByNumber, listExpectedBySerial } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { nextPlaces, type Place } from "@/lib/domain/claims/custody";
import type { ParcelReason } from "@/lib/domain/claims/parcels";
import { may } from "@/lib/domain/claims/permissions";
import { readScanned } from "@/lib/domain/claims/scanned-number";
import { custodyOf } from "./hand-over";
import { type ReturnedUnit, returnedUnit } from "./load-returns";
import { refuse, type Refusal } from "./refusal";
import { type ShownStep, shownSteps } from "./shown-custody";

/** Something that lies in the house, and where it may go from here. */
export interface ScannedThing {
  is: "here";
  parcelId: string;
  /** Of the return where it is the unit of one, else of the parcel. */
  number: string;
  unit: ReturnedUnit | null;
  stray: { reason: ParcelReason; holds: string; serial: string | null; sender: string; arrivedAt: Date; closing: string; claim: { id: string; reference: string } | null } | null;
  at: Place | null;
  steps: readonly ShownStep[];
  /** The usual place first. */
  offers: readonly Place[];
  places: readonly Place[];
}

export type Scanned =
  | { is: "awaited"; unit: ReturnedUnit; door: Place | null }
  | ScannedThing
  /** `expected`: returns whose unit has what was scanned for a serial. */
  | { is: "unknown"; typed: string; expected: readonly { number: string; reference: string }[] };

export interface LoadedScan {
  ok: true;
  scanned: Scanned;
  mayInspect: boolean;
  mayDecide: boolean;
  timeZone: string;
}

/** What lies behind a scanned label or a typed number, and the next handover of it. */
export async function loadScanned(actor: StaffActor, typed: string, now: Date = new Date()): Promise<LoadedScan | Refusal> {
  const refused = await refuse(actor, "hand over a unit");
  if (refused) return refused;
  const [places, { timeZone }] = await Promise.all([listPlaces(), loadSettings()]);
  const scanned = await lookUp(typed, places.filter(({ retiredAt }) => retiredAt === null), now);
  return { ok: true, scanned, mayInspect: may(actor.role, "inspect a unit"), mayDecide: may(actor.role, "authorise a return"), timeZone };
}

async function lookUp(typed: string, places: readonly KeptPlace[], now: Date): Promise<Scanned> {
  const read = readScanned(typed);
  const parcel = read?.is === "parcel" ? await findParcel({ number: read.number }) : null;
  if (parcel && !parcel.return) return thing(parcel, null, places);
  const number = parcel?.return?.number ?? (read?.is === "return" ? read.number : null);
  // The reference of a claim leads to its return as well.
  const unit = number && ((await findUnitByNumber(number)) ?? (await findOpenUnitOf(number)));
  if (!unit) return { is: "unknown", typed: typed.trim(), expected: await listExpectedBySerial(typed) };
  const its = parcel ?? (await findParcel({ returnId: unit.id }));
  return its ? thing(its, returnedUnit(unit, now), places) : { is: "awaited", unit: returnedUnit(unit, now), door: places.find(({ kind }) => kind === "door") ?? null };
}

async function findOpenUnitOf(number: string) {
  const claimId = await findClaimIdByNumber(database(), number);
  const open = claimId && (await findOpenReturn(database(), claimId));
  return open ? findUnitByNumber(open.number) : null;
}

function thing(parcel: KeptParcel, unit: ReturnedUnit | null, places: readonly KeptPlace[]): ScannedThing {
  const at = parcel.handovers.at(-1)?.to ?? null;
  const { holds, serial, sender, arrivedAt, closing, claim, reason } = parcel;
  return {
    is: "here",
    parcelId: parcel.id,
    number: unit?.number ?? parcel.number,
    unit,
    stray: reason && { reason, holds, serial, sender, arrivedAt, closing, claim },
    at,
    steps: shownSteps(parcel.handovers, true),
    offers: nextPlaces(custodyOf(parcel)).flatMap((kind) => places.filter((place) => place.kind === kind && place.code !== at?.code)),
    places,
  };
}
