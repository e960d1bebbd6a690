import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { type BookedSettlement, listSettlements } from "@/lib/data/settlements";
import { loadSettings } from "@/lib/data/settings";
import { findStandingVerdict } from "@/lib/data/verdicts";
import { type BookedTotal, DEPOSIT_ENDS, type PromisedThing, promisedThings, standingBookings, totalsOf } from "@/lib/domain/claims/bookings";
import { may } from "@/lib/domain/claims/permissions";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { refuse, type Refusal } from "./refusal";

export interface SettlementsOfClaim {
  ok: true;
  version: number;
  stage: ClaimStage;
  /** Oldest first; `stands` where it neither is a reversal nor was reversed. */
  booked: readonly (BookedSettlement & { stands: boolean })[];
  totals: readonly BookedTotal[];
  /** What the verdict that stands promised, and how much of it is booked. */
  promised: readonly PromisedThing[];
  /** A deposit that is neither given back nor kept. */
  deposit: BookedSettlement | null;
  /** The verdict that stands, as far as money goes. */
  verdict: { remedy: Remedy; sellerPercent: number } | null;
  /** New bookings are in this currency. */
  currency: string;
  mayBook: boolean;
  timeZone: string;
}

/** The money of one claim: what was promised, what is booked and who bears it. Who may not see the customer gets no notes. */
export async function loadSettlements(actor: StaffActor, claimId: string): Promise<SettlementsOfClaim | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [claim, booked, verdict, { currency, timeZone }] = await Promise.all([findClaimToActOn(claimId), listSettlements(claimId), findStandingVerdict(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  const standing = standingBookings(booked);
  const isEnded = standing.some(({ kind }) => DEPOSIT_ENDS.some((end) => end === kind));
  return {
    ok: true,
    version: claim.version,
    stage: claim.stage,
    booked: booked.map((one) => ({ ...one, note: may(actor.role, "see the customer") ? one.note : "", stands: standing.includes(one) })),
    totals: totalsOf(booked),
    promised: verdict ? promisedThings(verdict.remedy, verdict, booked) : [],
    deposit: (!isEnded && standing.find(({ kind }) => kind === "core_held")) || null,
    verdict: verdict && { remedy: verdict.remedy, sellerPercent: verdict.sellerPercent },
    currency,
    mayBook: may(actor.role, "book a settlement") && verdict !== null && (claim.stage === "decided" || claim.stage === "settled"),
    timeZone,
  };
}
