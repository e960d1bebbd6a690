import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { withdrawOpenCheckRequests } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";

export type EndClaimResult = { ok: true } | { ok: false; reason: "not-legal-here" | "changed-meanwhile" };

/** Ends the customer's own claim, and with it the checks that nobody needs to make any more. Part of `clearClaim` and `withdrawClaim`. */
export function endClaim(actor: CustomerActor, event: "clear" | "withdraw", detail: { check?: FindingCode } = {}): Promise<EndClaimResult> {
  return inTransaction(async (db) => {
    const moved = await moveClaim(db, actor.claimId, event, { actor: { kind: "customer" }, detail });
    if (!moved.ok) return { ok: false, reason: moved.reason };
    await withdrawOpenCheckRequests(db, actor.claimId, new Date());
    return { ok: true };
  });
}
