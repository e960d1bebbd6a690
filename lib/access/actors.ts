import "server-only";
import type { Language } from "@/lib/domain/claims/languages";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import type { Role } from "@/lib/domain/claims/roles";

declare const proven: unique symbol;

/** A customer whose key opens this claim and nothing else. Made only in `lib/access`. */
export interface CustomerActor {
  readonly kind: "customer";
  readonly claimId: string;
  readonly reference: string;
  /** Of the claim: what the customer reads. */
  readonly language: Language;
  readonly units: UnitSystem;
  readonly [proven]: true;
}

/** A signed-in person of the seller's staff. Made only in `lib/access`. */
export interface StaffActor {
  readonly kind: "staff";
  readonly personId: string;
  readonly name: string;
  readonly role: Role;
  readonly [proven]: true;
}

export type Actor = CustomerActor | StaffActor;
