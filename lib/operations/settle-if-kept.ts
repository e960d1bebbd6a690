import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import type { Db } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import { listSettlements } from "@/lib/data/settlements";
import { findStandingVerdict } from "@/lib/data/verdicts";
import { promisedThings } from "@/lib/domain/claims/bookings";
import { auditActor } from "./refusal";

/**
 * Settles a decided claim once all that its verdict promised is booked. Part of the operations that book, which have
 * checked who asks and hold the claim.
 *
 * @returns whether the claim is settled by this
 */
export async function settleIfKept(db: Db, actor: StaffActor, claimId: string, now: Date): Promise<boolean> {
  const [claim, verdict] = [await findClaimToActOn(claimId, db), await findStandingVerdict(claimId, db)];
  if (claim?.stage !== "decided" || !verdict) return false;
  const things = promisedThings(verdict.remedy, verdict, await listSettlements(claimId, db));
  if (things.some(({ isKept }) => !isKept)) return false;
  return (await moveClaim(db, claimId, "settle", { actor: auditActor(actor), detail: { remedy: verdict.remedy } }, { changes: { settledAt: now } })).ok;
}
