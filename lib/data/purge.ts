import "server-only";
import { goneBefore } from "@/lib/domain/claims/presence";
import { IMPORT_FILE_DAYS } from "@/lib/domain/imports/reading";
import { inTransaction } from "./client";
import { discardObjects } from "./discarded-objects";
import { deleteDrafts } from "./drafts";
import { forgetFiles } from "./imports";
import { deleteMailBefore } from "./outgoing-mail";
import { deleteUploads } from "./photo-uploads";
import { deletePresenceBefore } from "./presence";

/** Mail is kept as long as a browser may follow the claim it is about. */
const MAIL_DAYS = 90;
/** Who goes on with a photo does so within days; the device still has it and begins anew after that. */
const UPLOAD_DAYS = 3;
/** Nobody waits for it. */
const LONGEST_MS = 5 * 60_000;

/**
 * Removes what has run out: drafts whose last key has expired with their photos, photos that never became whole, spent
 * keys, ended staff sessions, old mail, files of figures, rate counts and who had a claim open.
 *
 * @returns how many of each
 */
export function purgeExpired(now: Date): Promise<{ drafts: number; keys: number; sessions: number; mails: number; imports: number }> {
  const daysAgo = (days: number) => new Date(now.getTime() - days * 86_400_000);
  return inTransaction(async (db) => {
    const expired = await db.claim.findMany({ where: { stage: "draft", keys: { none: { expiresAt: { gt: now } } }, createdAt: { lt: now } }, select: { id: true } });
    const drafts = await deleteDrafts(db, expired.map(({ id }) => id));
    await discardObjects(db, await deleteUploads(db, { createdAt: { lt: daysAgo(UPLOAD_DAYS) } }));
    const keys = await db.claimKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const sessions = await db.staffSession.deleteMany({ where: { expiresAt: { lt: now } } });
    const personKeys = await db.personKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const mails = await deleteMailBefore(db, daysAgo(MAIL_DAYS));
    const imports = await forgetFiles(db, daysAgo(IMPORT_FILE_DAYS), now);
    await db.rateLimit.deleteMany({ where: { expire: { lt: now.getTime() } } });
    await deletePresenceBefore(db, goneBefore(now));
    return { drafts, keys: keys.count + personKeys.count, sessions: sessions.count, mails, imports };
  }, LONGEST_MS);
}
