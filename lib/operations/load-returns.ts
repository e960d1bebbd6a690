import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { listCustodyOfClaim, listParcelsOfClaim, listStrayParcels } from "@/lib/data/custody";
import { type ExpectedUnit, listAwaitedUnits, listBenchInspections, listReturnsOfClaim, listUnitsHere } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { transition } from "@/lib/domain/claims/lifecycle";
import { may } from "@/lib/domain/claims/permissions";
import { type PlayReading, playReadings } from "@/lib/domain/claims/play-readings";
import type { ParcelReason } from "@/lib/domain/claims/parcels";
import { daysOverdue } from "@/lib/domain/claims/return-dates";
import { isHere } from "@/lib/domain/claims/return-lifecycle";
import { matchSerials, type SerialMatch } from "@/lib/domain/claims/serials";
import { refuse, type Refusal } from "./refusal";
import { type ShownStep, shownSteps } from "./shown-custody";

/** A unit that is expected or here, and whether its serial is the one of the claim. */
export interface ReturnedUnit extends ExpectedUnit {
  serialMatch: SerialMatch;
  isOverdue: boolean;
}

export const returnedUnit = (unit: ExpectedUnit, now: Date): ReturnedUnit => ({
  ...unit,
  serialMatch: matchSerials(unit),
  isOverdue: daysOverdue(unit, now) !== null,
});

/** Whether it came under another serial, and nobody has said yet what that means. */
export const isInDoubt = ({ serialMatch, sameUnitAt, state }: ReturnedUnit): boolean => serialMatch === "differs" && sameUnitAt === null && isHere(state);

/** Of those that are expected so many are shown; the others are found by their number. */
const MOST_COMING = 200;

export interface Returns {
  ok: true;
  here: readonly ReturnedUnit[];
  /** How many are expected in all and overdue, and of them those due first. */
  coming: { total: number; overdue: number; units: readonly (ReturnedUnit & { daysOverdue: number | null })[] };
  /** Parcels about which somebody has to decide. */
  strays: Awaited<ReturnType<typeof listStrayParcels>>;
  mayDecide: boolean;
  mayInspect: boolean;
  timeZone: string;
}

/** What came in and what is on its way: the work of the door, the bench and whoever decides on odd parcels. */
export async function loadReturns(actor: StaffActor, now: Date = new Date()): Promise<Returns | Refusal> {
  const refused = await refuse(actor, "hand over a unit");
  if (refused) return refused;
  const [here, awaited, strays, { timeZone }] = await Promise.all([listUnitsHere(), listAwaitedUnits(now, MOST_COMING), listStrayParcels(), loadSettings()]);
  return {
    ok: true,
    here: here.map((unit) => returnedUnit(unit, now)),
    coming: { ...awaited, units: awaited.units.map((unit) => ({ ...returnedUnit(unit, now), daysOverdue: daysOverdue(unit, now) })) },
    strays,
    mayDecide: may(actor.role, "authorise a return"),
    mayInspect: may(actor.role, "inspect a unit"),
    timeZone,
  };
}

/** What people typed of a unit, for a role that may not read free text. */
const NOT_SAID = { serialSeen: null, otherSerialSeen: null, serialExpected: null, otherSerial: null, vehicle: null, carrier: null, trackingNumber: null, sameUnitNote: "" };

export type Inspection = Awaited<ReturnType<typeof listBenchInspections>>[number] & {
  /** What was measured against the limits of the unit's model; null where the model is not known. */
  readings: readonly PlayReading[] | null;
};

export interface ReturnsOfClaim {
  ok: true;
  version: number;
  returns: readonly ReturnedUnit[];
  inspections: readonly Inspection[];
  /** Where each unit has been, by the id of its return, with what nobody wrote down between. */
  custody: Readonly<Record<string, readonly ShownStep[]>>;
  /** Parcels that came about the claim and are not its unit. */
  parcels: readonly { number: string; reason: ParcelReason; holds: string; arrivedAt: Date; closedAt: Date | null; closing: string }[];
  mayAuthorise: boolean;
  /** To prolong, to give up, to say that it is on its way, to settle a doubt about the serial. */
  mayDecide: boolean;
  mayInspect: boolean;
  returnWithinDays: number;
  timeZone: string;
}

/** The returns of one claim, and what this person may do about them now. Who may not see the customer gets no free text. */
export async function loadReturnsOfClaim(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<ReturnsOfClaim | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [claim, returns, inspections, custody, parcels, { returnWithinDays, timeZone }] = await Promise.all([findClaimToActOn(claimId), listReturnsOfClaim(claimId), listBenchInspections(claimId), listCustodyOfClaim(claimId), listParcelsOfClaim(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  const seesWords = may(actor.role, "see the customer");
  const unitIsHere = returns.some(({ state }) => isHere(state));
  return {
    ok: true,
    version: claim.version,
    returns: returns.map((unit) => ({ ...returnedUnit(unit, now), ...(seesWords ? {} : NOT_SAID) })),
    inspections: inspections.map((inspection) => {
      const turbo = returns.find(({ id }) => id === inspection.returnId)?.turbo;
      return { ...inspection, note: seesWords ? inspection.note : "", readings: turbo ? playReadings(inspection.findings, turbo) : null };
    }),
    custody: Object.fromEntries(custody.flatMap(({ returnId, handovers }) => (returnId ? [[returnId, shownSteps(handovers, seesWords)]] : []))),
    // The database holds a reason for each of them: none is the unit of a return.
    parcels: parcels.flatMap(({ number, reason, holds, arrivedAt, closedAt, closing }) => (reason ? [{ number, reason, holds: seesWords ? holds : "", arrivedAt, closedAt, closing: seesWords ? closing : "" }] : [])),
    mayAuthorise: may(actor.role, "authorise a return") && transition(claim.stage, "authorise_return").ok && !unitIsHere,
    mayDecide: may(actor.role, "authorise a return"),
    mayInspect: may(actor.role, "inspect a unit") && unitIsHere,
    returnWithinDays,
    timeZone,
  };
}
