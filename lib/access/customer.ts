import "server-only";
import { cookies } from "next/headers";
import { notFound } from "next/navigation";
import { cache } from "react";
import type { Language } from "@/lib/domain/claims/languages";
import { CLAIM_KEY_DAYS, DRAFT_DAYS } from "@/lib/domain/claims/key-days";
import { parseReference } from "@/lib/domain/claims/reference";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import { findClaimByBrowserKey } from "@/lib/data/claim-keys";
import { env } from "@/lib/env";
import type { CustomerActor } from "./actors";
import { hashSecret } from "./secrets";

const CLAIM_COOKIE = "fit-or-fault.claim";
const DRAFT_COOKIE = "fit-or-fault.draft";

/**
 * The customer whose browser holds the key of the claim with this reference, or null. A claim the key does not open
 * is told from one that does not exist by nobody.
 */
export async function currentCustomer(reference: string): Promise<CustomerActor | null> {
  const known = parseReference(reference);
  const key = (await cookies()).get(CLAIM_COOKIE)?.value;
  if (!known || !key) return null;
  const actor = await customerByKey(key);
  return actor?.reference === known ? actor : null;
}

/** As `currentCustomer`; a stranger gets the page for what does not exist. */
export async function requireCustomer(reference: string): Promise<CustomerActor> {
  return (await currentCustomer(reference)) ?? notFound();
}

/** The customer whose browser writes a draft, or null. */
export async function currentDraftCustomer(): Promise<CustomerActor | null> {
  const key = (await cookies()).get(DRAFT_COOKIE)?.value;
  if (!key) return null;
  const claim = await claimOfKey(key);
  return claim?.stage === "draft" ? customerActor(claim) : null;
}

/**
 * The customer whose browser wrote the intake, also after it was filed: a second post of the same form, or Back, is then
 * led to the claim it has become.
 */
export async function currentIntakeCustomer(): Promise<{ actor: CustomerActor; isFiled: boolean } | null> {
  const key = (await cookies()).get(DRAFT_COOKIE)?.value;
  return key ? intakeCustomerByKey(key) : null;
}

/** The customer behind the browser key of an intake, filed or not. */
export async function intakeCustomerByKey(key: string): Promise<{ actor: CustomerActor; isFiled: boolean } | null> {
  const claim = await claimOfKey(key);
  return claim && { actor: customerActor(claim), isFiled: claim.stage !== "draft" };
}

/** The customer behind a browser key, for a claim that is filed. */
export async function customerByKey(key: string): Promise<CustomerActor | null> {
  const claim = await claimOfKey(key);
  return claim && claim.stage !== "draft" ? customerActor(claim) : null;
}

/** The customer of the page that is asked for: of the claim or the draft whose key is sent to it, filed or not. */
export async function customerHere(): Promise<CustomerActor | null> {
  const jar = await cookies();
  const key = jar.get(CLAIM_COOKIE)?.value ?? jar.get(DRAFT_COOKIE)?.value;
  const claim = key ? await claimOfKey(key) : null;
  return claim && customerActor(claim);
}

/** Looked up once a request: the page and the frame around it ask for the same. */
const claimOfKey = cache((key: string) => findClaimByBrowserKey(hashSecret(key), new Date()));

/** Lets this browser follow one claim: the cookie is sent to that claim's pages only. */
export async function keepClaimKey(reference: string, key: string): Promise<void> {
  (await cookies()).set(CLAIM_COOKIE, key, { ...COOKIE, path: `/claim/${reference}`, maxAge: CLAIM_KEY_DAYS * 86_400 });
}

export async function keepDraftKey(key: string): Promise<void> {
  (await cookies()).set(DRAFT_COOKIE, key, { ...COOKIE, path: "/intake", maxAge: DRAFT_DAYS * 86_400 });
}

export async function dropDraftKey(): Promise<void> {
  (await cookies()).set(DRAFT_COOKIE, "", { ...COOKIE, path: "/intake", maxAge: 0 });
}

const COOKIE = { httpOnly: true, sameSite: "lax", secure: env.APP_ORIGIN.startsWith("https:") } as const;

function customerActor(claim: { id: string; reference: string; language: Language; units: UnitSystem }): CustomerActor {
  // The brand exists only in the type: this is the one place that proves it.
  return { kind: "customer", claimId: claim.id, reference: claim.reference, language: claim.language, units: claim.units } as CustomerActor;
}
