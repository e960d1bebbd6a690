import "server-only";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { type Db, database } from "./client";

const read = new Map<number, Edition>();

/** The edition of this number, as it was stored: editions never change. */
export async function loadEdition(number: number, db: Db = database()): Promise<Edition> {
  const known = read.get(number);
  if (known) return known;
  const row = await db.knowledgeEdition.findUniqueOrThrow({ where: { number } });
  // Only documents that passed the edition's schema are ever stored; the first ones say nothing of experience.
  const edition = { experience: [], ...(row.document as unknown as Omit<Edition, "experience"> & Partial<Edition>) };
  read.set(number, edition);
  return edition;
}

/** The edition in force: the one promoted last. */
export async function loadEditionInForce(db: Db = database()): Promise<Edition> {
  const row = await db.knowledgeEdition.findFirstOrThrow({
    where: { promotedAt: { not: null } },
    orderBy: { promotedAt: "desc" },
    select: { number: true },
  });
  return loadEdition(row.number, db);
}
