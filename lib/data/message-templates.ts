import "server-only";
import { type Db, database } from "./client";

export interface TemplateTexts {
  name: string;
  english: string;
  german: string;
}

/** All templates, by name. */
export function listMessageTemplates() {
  return database().messageTemplate.findMany({ orderBy: { name: "asc" }, include: { changedBy: { select: { name: true } } } });
}

export function findMessageTemplate(id: string) {
  return database().messageTemplate.findUnique({ where: { id } });
}

/**
 * @throws a uniqueness error when another template has this name
 */
export function insertMessageTemplate(db: Db, texts: TemplateTexts, changedById: string): Promise<{ id: string }> {
  return db.messageTemplate.create({ data: { ...texts, changedById }, select: { id: true } });
}

/**
 * Changes a template, unless somebody else has since it was read.
 *
 * @throws a uniqueness error when another template has this name
 */
export async function updateMessageTemplate(db: Db, id: string, version: number, texts: TemplateTexts, changedById: string, now: Date): Promise<boolean> {
  const { count } = await db.messageTemplate.updateMany({ where: { id, version }, data: { ...texts, changedById, changedAt: now, version: { increment: 1 } } });
  return count === 1;
}

/** Drops a template, unless somebody else has changed it since it was read. */
export async function deleteMessageTemplate(db: Db, id: string, version: number): Promise<{ name: string } | null> {
  const template = await db.messageTemplate.findFirst({ where: { id, version }, select: { name: true } });
  const { count } = await db.messageTemplate.deleteMany({ where: { id, version } });
  return count === 1 ? template : null;
}

/** What a claim has to fill the gaps of a template with; null for a draft. */
export function findTemplateFacts(claimId: string) {
  return database().claim.findFirst({
    where: { id: claimId, stage: { not: "draft" } },
    select: {
      contactName: true,
      reference: true,
      language: true,
      promisedAt: true,
      vehicleWords: true,
      vehicle: true,
      kitRevision: { select: { kit: { select: { name: true } } } },
      checkRequests: { where: { state: "open" }, orderBy: { askedAt: "asc" }, select: { findingCode: true } },
      returns: { where: { state: { in: ["authorised", "in_carriage", "received", "on_the_bench"] } }, select: { number: true } },
    },
  });
}
