import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { listLinked } from "@/lib/data/joined-claims";
import { findSameUnit } from "@/lib/data/same-unit";
import { may } from "@/lib/domain/claims/permissions";
import { noticesOf, type UnitNotice } from "@/lib/domain/claims/same-unit";
import { type Refusal, refuse } from "./refusal";

export interface JoinedClaims {
  ok: true;
  notices: readonly UnitNotice[];
  linked: Awaited<ReturnType<typeof listLinked>>;
  mayJoin: boolean;
}

/** What is to be noticed about the unit of a claim, and the claims linked to it. */
export async function loadJoinedClaims(actor: StaffActor, claimId: string): Promise<JoinedClaims | Refusal> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [unit, linked] = await Promise.all([findSameUnit(claimId), listLinked(claimId)]);
  // Staff may name the customer in their own words.
  const shown = may(actor.role, "see the customer") ? linked : linked.map((link) => ({ ...link, why: "" }));
  return { ok: true, notices: noticesOf(unit.claims, unit.shipment), linked: shown, mayJoin: may(actor.role, "link or merge claims") };
}
