import "server-only";
import { inTransaction } from "@/lib/data/client";
import { forgetFiles } from "@/lib/data/imports";
import { purgeExpired as purgeRows } from "@/lib/data/purge";
import { IMPORT_FILE_DAYS } from "@/lib/domain/imports/reading";
import { removeObject } from "@/lib/files/store";

/** Removes what has run out, the pictures of drafts that went with it, and old files of figures. The nightly job's. */
export async function purgeExpired(now: Date): Promise<{ drafts: number; keys: number; sessions: number; mails: number; photos: number; imports: number }> {
  const { storageKeys, pieceKeys, ...counts } = await purgeRows(now);
  for (const key of storageKeys) await Promise.all([removeObject(key), removeObject(`${key}-small`)]);
  for (const key of pieceKeys) await removeObject(key);
  const imports = await inTransaction((db) => forgetFiles(db, new Date(now.getTime() - IMPORT_FILE_DAYS * 86_400_000), now));
  for (const key of imports) await removeObject(key);
  return { ...counts, photos: storageKeys.length, imports: imports.length };
}
