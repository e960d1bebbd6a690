import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction, isUniqueViolation } from "@/lib/data/client";
import { deleteMessageTemplate, findMessageTemplate, insertMessageTemplate, listMessageTemplates, updateMessageTemplate } from "@/lib/data/message-templates";
import { loadSettings } from "@/lib/data/settings";
import type { MessageTemplateInput } from "@/lib/inputs/message-template";
import { auditActor, type Refusal, refuse } from "./refusal";

export type MessageTemplate = Awaited<ReturnType<typeof listMessageTemplates>>[number];

/** The message templates, for whoever may change them. */
export async function loadMessageTemplates(actor: StaffActor): Promise<{ ok: true; templates: readonly MessageTemplate[]; timeZone: string } | Refusal> {
  const refused = await refuse(actor, "change message templates");
  if (refused) return refused;
  const [templates, { timeZone }] = await Promise.all([listMessageTemplates(), loadSettings()]);
  return { ok: true, templates, timeZone };
}

export type KeepMessageTemplateResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "name-taken" | "changed-meanwhile" };

/**
 * Keeps a new message template, or a changed one.
 *
 * @param known which template, and its version as the person saw it; null for a new one
 */
export async function keepMessageTemplate(actor: StaffActor, known: { id: string; version: number } | null, texts: MessageTemplateInput, now: Date = new Date()): Promise<KeepMessageTemplateResult> {
  const refused = await refuse(actor, "change message templates");
  if (refused) return refused;
  if (known && !(await findMessageTemplate(known.id))) return { ok: false, reason: "not-found" };
  return inTransaction(async (db): Promise<KeepMessageTemplateResult> => {
    if (known && !(await updateMessageTemplate(db, known.id, known.version, texts, actor.personId, now))) return { ok: false, reason: "changed-meanwhile" };
    if (!known) await insertMessageTemplate(db, texts, actor.personId);
    await appendAudit(db, { actor: auditActor(actor), action: "keep_template", detail: { name: texts.name } });
    return { ok: true };
  }).catch((error: unknown): KeepMessageTemplateResult => {
    if (isUniqueViolation(error)) return { ok: false, reason: "name-taken" };
    throw error;
  });
}

export type DropMessageTemplateResult = { ok: true } | Refusal | { ok: false; reason: "changed-meanwhile" };

/** Drops a message template, unless somebody has changed it since it was seen. Messages written with it stay. */
export async function dropMessageTemplate(actor: StaffActor, { id, version }: { id: string; version: number }): Promise<DropMessageTemplateResult> {
  const refused = await refuse(actor, "change message templates");
  if (refused) return refused;
  return inTransaction(async (db): Promise<DropMessageTemplateResult> => {
    const dropped = await deleteMessageTemplate(db, id, version);
    if (!dropped) return { ok: false, reason: "changed-meanwhile" };
    await appendAudit(db, { actor: auditActor(actor), action: "drop_template", detail: { name: dropped.name } });
    return { ok: true };
  });
}
