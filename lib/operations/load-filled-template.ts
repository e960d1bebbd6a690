import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { findMessageTemplate, findTemplateFacts, listMessageTemplates } from "@/lib/data/message-templates";
import { vehicleName } from "@/lib/data/purchases";
import { loadSettings } from "@/lib/data/settings";
import type { Language } from "@/lib/domain/claims/languages";
import { editionInLanguage } from "@/lib/domain/diagnosis/edition-in-language";
import { fillTemplate, type TemplateFacts, type TemplateGap } from "@/lib/domain/claims/message-templates";
import { LOCALES } from "@/lib/messages/dates";
import { type Refusal, refuse } from "./refusal";

export interface FilledTemplate {
  ok: true;
  templates: readonly { id: string; name: string }[];
  /** The one that was chosen, with the facts of the claim; null where none was. */
  filled: { id: string; text: string; open: readonly TemplateGap[] } | null;
  language: Language;
}

/**
 * The message templates to choose from, and the chosen one with the facts of the claim in its gaps.
 *
 * @param chosen its id, and the language; by default the customer's own
 */
export async function loadFilledTemplate(actor: StaffActor, claimId: string, chosen: { id?: string | undefined; language?: Language | undefined }, now: Date = new Date()): Promise<FilledTemplate | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "write a message", claimId);
  if (refused) return refused;
  const [claim, templates, template] = await Promise.all([findTemplateFacts(claimId), listMessageTemplates(), chosen.id ? findMessageTemplate(chosen.id) : null]);
  if (!claim) return { ok: false, reason: "not-found" };
  const language = chosen.language ?? claim.language;
  const names = templates.map(({ id, name }) => ({ id, name }));
  if (!template) return { ok: true, templates: names, filled: null, language };
  const filled = fillTemplate(language === "de" ? template.german : template.english, await factsOf(claim, language, now));
  return { ok: true, templates: names, filled: { id: template.id, ...filled }, language };
}

async function factsOf(claim: NonNullable<Awaited<ReturnType<typeof findTemplateFacts>>>, language: Language, now: Date): Promise<TemplateFacts> {
  const [edition, seller] = await Promise.all([loadEditionInForce(), loadSettings()]);
  const { findings } = editionInLanguage(edition, language);
  const asked = claim.checkRequests.flatMap(({ findingCode }) => findings.find(({ code }) => code === findingCode)?.name ?? []);
  // A day that has passed is no promise any more: it stays a gap, for a person to name another.
  const promised = claim.promisedAt && claim.promisedAt > now ? new Intl.DateTimeFormat(LOCALES[language], { dateStyle: "full", timeZone: seller.timeZone }).format(claim.promisedAt) : null;
  return {
    name: claim.contactName,
    reference: claim.reference,
    kit: claim.kitRevision?.kit.name ?? null,
    vehicle: claim.vehicle ? vehicleName(claim.vehicle) : claim.vehicleWords,
    "check asked": asked.length > 0 ? asked.join("; ") : null,
    "promised day": promised,
    "return number": claim.returns[0]?.number ?? null,
    "seller phone": seller.phone || null,
  };
}
