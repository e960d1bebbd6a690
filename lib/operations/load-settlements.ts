import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { type BookedSettlement, listSettlements } from "@/lib/data/settlements";
import { loadSettings } from "@/lib/data/settings";
import { findStandingVerdict } from "@/lib/data/verdicts";
import { may } from "@/lib/domain/claims/permissions";
import { paysMoney, type Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { refuse, type Refusal } from "./refusal";

export interface SettlementsOfClaim {
  ok: true;
  version: number;
  stage: ClaimStage;
  booked: readonly BookedSettlement[];
  /** What the bookings come to, by currency. */
  totals: readonly { currency: string; amountMinor: number }[];
  /** Settled by a remedy that is money, and all that was booked is reversed. */
  isNothingPaid: boolean;
  /** The remedy of the verdict that stands. */
  remedy: Remedy | null;
  /** New bookings are in this currency. */
  currency: string;
  mayBook: boolean;
  mayReverse: boolean;
  timeZone: string;
}

/** What has been booked for one claim, and what this person may book now. Who may not see the customer gets no notes. */
export async function loadSettlements(actor: StaffActor, claimId: string): Promise<SettlementsOfClaim | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [claim, booked, verdict, { currency, timeZone }] = await Promise.all([findClaimToActOn(claimId), listSettlements(claimId), findStandingVerdict(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  const currencies = [...new Set(booked.map((settlement) => settlement.currency))];
  const mayReverse = may(actor.role, "book a settlement");
  const totals = currencies.map((each) => ({ currency: each, amountMinor: booked.reduce((total, { currency: its, amountMinor }) => total + (its === each ? amountMinor : 0), 0) }));
  return {
    ok: true,
    version: claim.version,
    stage: claim.stage,
    booked: may(actor.role, "see the customer") ? booked : booked.map((settlement) => ({ ...settlement, note: "" })),
    totals,
    isNothingPaid: claim.stage === "settled" && verdict !== null && paysMoney(verdict.remedy) && booked.length > 0 && totals.every(({ amountMinor }) => amountMinor === 0),
    remedy: verdict?.remedy ?? null,
    currency,
    mayBook: mayReverse && verdict !== null && (claim.stage === "decided" || claim.stage === "settled"),
    mayReverse,
    timeZone,
  };
}
