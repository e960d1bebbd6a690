import "server-only";
import { hashSecret } from "@/lib/access/secrets";
import { spendLinkKey } from "@/lib/data/claim-keys";
import { inTransaction } from "@/lib/data/client";
import { newDraftKey } from "./claim-links";

export type ResumeDraftResult = { ok: true; key: string } | { ok: false; reason: "link-spent" };

/** Exchanges a mailed one-time key for a browser's key to the draft. Whoever holds the key may, once. */
export async function resumeDraft(linkKey: string): Promise<ResumeDraftResult> {
  const now = new Date();
  try {
    return await inTransaction(async (db) => {
      const claim = await spendLinkKey(db, hashSecret(linkKey), now);
      if (claim?.stage !== "draft") throw new NoDraft();
      return { ok: true, key: await newDraftKey(db, claim.id, now) };
    });
  } catch (error) {
    if (error instanceof NoDraft) return { ok: false, reason: "link-spent" };
    throw error;
  }
}

/** Rolls the spending back. */
class NoDraft extends Error {}
