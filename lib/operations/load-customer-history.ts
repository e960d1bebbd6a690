import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type EarlierClaim, listClaimsOfCustomer, listOrdersOfCustomer, type OrderOfCustomer } from "@/lib/data/customer-history";
import { type Refusal, refuse } from "./refusal";

export interface CustomerHistory {
  ok: true;
  claims: readonly EarlierClaim[];
  orders: readonly OrderOfCustomer[];
}

/** What else the customer of a claim has complained of and ordered. */
export async function loadCustomerHistory(actor: StaffActor, claimId: string): Promise<CustomerHistory | Refusal> {
  const refused = await refuse(actor, "see the customer", claimId);
  if (refused) return refused;
  const [claims, orders] = await Promise.all([listClaimsOfCustomer(claimId), listOrdersOfCustomer(claimId)]);
  return { ok: true, claims, orders };
}
