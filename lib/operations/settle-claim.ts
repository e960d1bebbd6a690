import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { refuse, type Refusal } from "./refusal";
import { settleIfKept } from "./settle-if-kept";

export type SettleClaimResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | "changed-meanwhile" | "not-legal-here" }
  /** Something that was promised is not booked. */
  | { ok: false; reason: "promise-open" };

/** Settles a decided claim where nothing that was promised is open: of advice or a refusal, without any booking. */
export async function settleClaim(actor: StaffActor, claimId: string, { version }: { version: number }, now: Date = new Date()): Promise<SettleClaimResult> {
  const refused = await refuse(actor, "book a settlement", claimId);
  if (refused) return refused;
  return inTransaction(async (db): Promise<SettleClaimResult> => {
    await lockClaim(db, claimId);
    const claim = await findClaimToActOn(claimId, db);
    if (!claim) return { ok: false, reason: "not-found" };
    if (claim.version !== version) return { ok: false, reason: "changed-meanwhile" };
    if (claim.stage !== "decided") return { ok: false, reason: "not-legal-here" };
    return (await settleIfKept(db, actor, claimId, now)) ? { ok: true } : { ok: false, reason: "promise-open" };
  });
}
