import "server-only";
import { hashSecret } from "@/lib/access/secrets";
import { spendLinkKey } from "@/lib/data/claim-keys";
import { inTransaction } from "@/lib/data/client";
import type { Language } from "@/lib/domain/claims/languages";
import { parseReference } from "@/lib/domain/claims/reference";
import { newFollowingKey } from "./claim-links";

export type OpenClaimLinkResult = { ok: true; reference: string; key: string; language: Language } | { ok: false; reason: "link-spent" };

/** Exchanges a mailed one-time key for a browser's key to one filed claim. Whoever holds the key may, once. */
export async function openClaimLink(reference: string, linkKey: string): Promise<OpenClaimLinkResult> {
  const now = new Date();
  try {
    return await inTransaction(async (db) => {
      const claim = await spendLinkKey(db, hashSecret(linkKey), now);
      // A key of a draft, or under another claim's address, is not spent.
      if (!claim || claim.stage === "draft" || claim.reference !== parseReference(reference)) throw new NotThisClaim();
      return { ok: true, reference: claim.reference, key: await newFollowingKey(db, claim.id, now), language: claim.language };
    });
  } catch (error) {
    if (error instanceof NotThisClaim) return { ok: false, reason: "link-spent" };
    throw error;
  }
}

/** Rolls the spending back. */
class NotThisClaim extends Error {}
