import "server-only";
import { purgeExpired as purgeRows } from "@/lib/data/purge";
import { removeObject } from "@/lib/files/store";

/** Removes what has run out, and the pictures of drafts that went with it. The nightly job's. */
export async function purgeExpired(now: Date): Promise<{ drafts: number; keys: number; sessions: number; mails: number; photos: number }> {
  const { storageKeys, ...counts } = await purgeRows(now);
  for (const key of storageKeys) await Promise.all([removeObject(key), removeObject(`${key}-small`)]);
  return { ...counts, photos: storageKeys.length };
}
