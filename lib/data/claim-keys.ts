import "server-only";
import { type Db, database } from "./client";

export type ClaimKeyKind = "browser" | "link";

export async function insertClaimKey(db: Db, key: { claimId: string; kind: ClaimKeyKind; hash: string; expiresAt: Date }): Promise<void> {
  await db.claimKey.create({ data: key });
}

/** The claim a live browser key opens, or null. */
export async function findClaimByBrowserKey(hash: string, now: Date) {
  const key = await database().claimKey.findFirst({
    where: { hash, kind: "browser", expiresAt: { gt: now } },
    select: { claim: { select: { id: true, reference: true, stage: true, language: true, units: true } } },
  });
  return key?.claim ?? null;
}

/**
 * Uses up a mailed one-time key.
 *
 * @returns the claim it opens, or null when it is unknown, used or too old
 */
export async function spendLinkKey(db: Db, hash: string, now: Date) {
  const spent = await db.claimKey.updateManyAndReturn({
    where: { hash, kind: "link", usedAt: null, expiresAt: { gt: now } },
    data: { usedAt: now },
    select: { claim: { select: { id: true, reference: true, stage: true, language: true } } },
  });
  return spent[0]?.claim ?? null;
}
