import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { type EndClaimResult, endClaim } from "./end-claim";

/** A check has put the customer's own complaint right: nothing more is to be decided. */
export function clearClaim(actor: CustomerActor): Promise<EndClaimResult> {
  return endClaim(actor, "clear");
}
