/** The gaps a message template may have: a closed set, each filled from the claim. */
export const TEMPLATE_GAPS = ["name", "reference", "kit", "vehicle", "check asked", "promised day", "return number", "seller phone"] as const;
export type TemplateGap = (typeof TEMPLATE_GAPS)[number];

/** What a claim has to fill the gaps with; null where it does not know. */
export type TemplateFacts = Readonly<Record<TemplateGap, string | null>>;

const GAP = /\{([^{}]*)\}/g;

/**
 * The gaps of a text that no claim can fill, as they were written.
 *
 * @example unknownGaps("Dear {name}, your {turbo}") // ["turbo"]
 */
export function unknownGaps(text: string): string[] {
  return [...new Set(writtenGaps(text).filter((gap) => !isGap(gap)))];
}

/**
 * A template with the facts of a claim in its gaps. What the claim does not know stays a gap in the text, for a person
 * to fill or to take out, and is named.
 *
 * @example fillTemplate("By {promised day}, {name}.", { name: "Ada", ... }) // { text: "By {promised day}, Ada.", open: ["promised day"] }
 */
export function fillTemplate(template: string, facts: TemplateFacts): { text: string; open: readonly TemplateGap[] } {
  const text = template.replace(GAP, (written, gap: string) => (isGap(gap.trim()) ? (facts[gap.trim() as TemplateGap] ?? `{${gap.trim()}}`) : written));
  return { text, open: openGaps(text) };
}

/** The known gaps that still stand in a text: nobody may send it so. */
export function openGaps(text: string): TemplateGap[] {
  return TEMPLATE_GAPS.filter((gap) => writtenGaps(text).includes(gap));
}

const writtenGaps = (text: string) => [...text.matchAll(GAP)].map(([, gap = ""]) => gap.trim());
const isGap = (written: string): written is TemplateGap => TEMPLATE_GAPS.some((gap) => gap === written);
