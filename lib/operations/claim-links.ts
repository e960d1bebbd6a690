import "server-only";
import { hashSecret, newSecret } from "@/lib/access/secrets";
import { insertClaimKey } from "@/lib/data/claim-keys";
import type { Db } from "@/lib/data/client";
import { CLAIM_KEY_DAYS, DRAFT_DAYS } from "@/lib/domain/claims/key-days";
import { env } from "@/lib/env";

/** How long a mailed link waits for its button to be pressed. A new one can be asked for at any time. */
const LINK_DAYS = 14;

/** A one-time link to a claim's private page, for a mail in the same transaction. */
export async function newClaimLink(db: Db, claim: { id: string; reference: string }, now: Date): Promise<string> {
  return `${env.APP_ORIGIN}/claim/${claim.reference}/open?key=${await newKey(db, claim.id, "link", LINK_DAYS, now)}`;
}

/** A one-time link that goes on with a draft in another browser. */
export async function newDraftLink(db: Db, claimId: string, now: Date): Promise<string> {
  return `${env.APP_ORIGIN}/intake/resume?key=${await newKey(db, claimId, "link", DRAFT_DAYS, now)}`;
}

/** A key that lets a browser follow a filed claim. */
export function newFollowingKey(db: Db, claimId: string, now: Date): Promise<string> {
  return newKey(db, claimId, "browser", CLAIM_KEY_DAYS, now);
}

/** A key that lets a browser write a draft. */
export function newDraftKey(db: Db, claimId: string, now: Date): Promise<string> {
  return newKey(db, claimId, "browser", DRAFT_DAYS, now);
}

async function newKey(db: Db, claimId: string, kind: "browser" | "link", days: number, now: Date): Promise<string> {
  const secret = newSecret();
  await insertClaimKey(db, { claimId, kind, hash: hashSecret(secret), expiresAt: new Date(now.getTime() + days * 86_400_000) });
  return secret;
}
