import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { withdrawOpenCheckRequests } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";

export type EndMyClaimResult = { ok: true } | { ok: false; reason: "not-legal-here" | "changed-meanwhile" };

/** The customer's own complaint is put right by a check: nothing more is to be decided. */
export function clearClaim(actor: CustomerActor): Promise<EndMyClaimResult> {
  return endClaim(actor, "clear");
}

/** The customer takes the complaint back. */
export function withdrawClaim(actor: CustomerActor): Promise<EndMyClaimResult> {
  return endClaim(actor, "withdraw");
}

function endClaim(actor: CustomerActor, event: "clear" | "withdraw"): Promise<EndMyClaimResult> {
  return inTransaction(async (db) => {
    const moved = await moveClaim(db, actor.claimId, event, { actor: { kind: "customer" } });
    if (!moved.ok) return { ok: false, reason: moved.reason };
    await withdrawOpenCheckRequests(db, actor.claimId, new Date());
    return { ok: true };
  });
}
