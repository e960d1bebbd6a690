import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import { type EndClaimResult, endClaim } from "./end-claim";

/**
 * A check has put the customer's own complaint right: nothing more is to be decided.
 *
 * @param check the one that did, where it was said beside it
 */
export function clearClaim(actor: CustomerActor, check?: FindingCode): Promise<EndClaimResult> {
  return endClaim(actor, "clear", check ? { check } : {});
}
