import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { type EndClaimResult, endClaim } from "./end-claim";

/** The customer takes the own complaint back. */
export function withdrawClaim(actor: CustomerActor): Promise<EndClaimResult> {
  return endClaim(actor, "withdraw");
}
