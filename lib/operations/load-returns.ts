import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { loadEditionInForce } from "@/lib/data/editions";
import { type ExpectedUnit, findUnitOnBench, listBenchInspections, listOpenReturns, listReturnsOfClaim } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { transition } from "@/lib/domain/claims/lifecycle";
import { may } from "@/lib/domain/claims/permissions";
import { type PlayReading, playReadings } from "@/lib/domain/claims/play-readings";
import { compareSerials, type SerialMatch } from "@/lib/domain/claims/serials";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { refuse, type Refusal } from "./refusal";

/** A unit that is expected or here, and whether its serial is the one of the claim. */
export interface ReturnedUnit extends ExpectedUnit {
  serialMatch: SerialMatch;
  isOverdue: boolean;
}

const returnedUnit = (unit: ExpectedUnit, now: Date): ReturnedUnit => ({
  ...unit,
  serialMatch: compareSerials(unit.serialSeen, unit.serialExpected),
  isOverdue: unit.receivedAt === null && unit.state !== "expired" && unit.expiresAt < now,
});

/** What the bench has to do, and what is on its way to it. */
export async function loadReturns(actor: StaffActor, now: Date = new Date()): Promise<{ ok: true; units: readonly ReturnedUnit[]; timeZone: string } | Refusal> {
  const refused = await refuse(actor, "inspect a unit");
  if (refused) return refused;
  const [units, { timeZone }] = await Promise.all([listOpenReturns(), loadSettings()]);
  return { ok: true, units: units.map((unit) => returnedUnit(unit, now)), timeZone };
}

/** What people typed of a unit, for a role that may not read free text. */
const NOT_SAID = { serialSeen: null, serialExpected: null, vehicle: null };

export type Inspection = Awaited<ReturnType<typeof listBenchInspections>>[number] & {
  /** What was measured against the limits of the unit's model; null where the model is not known. */
  readings: readonly PlayReading[] | null;
};

export interface ReturnsOfClaim {
  ok: true;
  version: number;
  returns: readonly ReturnedUnit[];
  inspections: readonly Inspection[];
  mayAuthorise: boolean;
  mayInspect: boolean;
  returnWithinDays: number;
  timeZone: string;
}

/** The returns of one claim, and what this person may do about them now. Who may not see the customer gets no free text. */
export async function loadReturnsOfClaim(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<ReturnsOfClaim | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [claim, returns, inspections, { returnWithinDays, timeZone }] = await Promise.all([findClaimToActOn(claimId), listReturnsOfClaim(claimId), listBenchInspections(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  const seesWords = may(actor.role, "see the customer");
  const isHere = returns.some(({ state }) => state === "received" || state === "on_the_bench");
  return {
    ok: true,
    version: claim.version,
    returns: returns.map((unit) => ({ ...returnedUnit(unit, now), ...(seesWords ? {} : NOT_SAID) })),
    inspections: inspections.map((inspection) => {
      const turbo = returns.find(({ id }) => id === inspection.returnId)?.turbo;
      return { ...inspection, note: seesWords ? inspection.note : "", readings: turbo ? playReadings(inspection.findings, turbo) : null };
    }),
    mayAuthorise: may(actor.role, "authorise a return") && transition(claim.stage, "authorise_return").ok && !isHere,
    mayInspect: may(actor.role, "inspect a unit") && isHere,
    returnWithinDays,
    timeZone,
  };
}

/** The unit of a claim that lies on the bench, and the edition whose questions are asked of it. */
export async function loadUnitOnBench(actor: StaffActor, claimId: string): Promise<{ ok: true; unit: ReturnedUnit; edition: Edition } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "inspect a unit", claimId);
  if (refused) return refused;
  const [unit, edition] = await Promise.all([findUnitOnBench(claimId), loadEditionInForce()]);
  return unit ? { ok: true, unit: returnedUnit(unit, new Date()), edition } : { ok: false, reason: "not-found" };
}
