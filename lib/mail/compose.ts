import "server-only";
import { FIRST_LANGUAGE } from "@/lib/domain/claims/languages";
import { type Words, wordsIn } from "@/lib/messages/words";

/** The parts of a mail: a greeting, paragraphs, at most one link as a button, and the seller's name. */
export interface MailContent {
  subject: string;
  greeting: string;
  paragraphs: readonly string[];
  link?: { label: string; url: string };
  /** The seller's name and telephone, as the closing lines. */
  signature: readonly string[];
}

export interface ComposedMail {
  subject: string;
  text: string;
  html: string;
}

/** A mail as plain text and as HTML of the same words, to staff in English. Everything is escaped. */
export function composeMail(content: MailContent, words: Words = wordsIn(FIRST_LANGUAGE)): ComposedMail {
  const note = words("mail.note");
  const text = [
    content.greeting,
    ...content.paragraphs,
    ...(content.link ? [`${content.link.label}:\n${content.link.url}`] : []),
    content.signature.join("\n"),
    note,
  ].join("\n\n");
  const html = [
    `<!doctype html><html lang="${words.language}"><meta charset="utf-8"><body style="font:16px/1.5 sans-serif;color:#1b2a33;max-width:36em">`,
    paragraph(content.greeting),
    ...content.paragraphs.map(paragraph),
    ...(content.link
      ? [
          `<p><a href="${escapeHtml(content.link.url)}" style="display:inline-block;padding:12px 20px;background:#1b2a33;color:#fdfcf8;text-decoration:none">${escapeHtml(content.link.label)}</a></p>`,
        ]
      : []),
    paragraph(content.signature.join("\n")),
    `<p style="color:#42525b;font-size:14px">${escapeHtml(note)}</p></body></html>`,
  ].join("\n");
  // A line break in a subject would start another header.
  return { subject: content.subject.replace(/\s+/g, " "), text, html };
}

function paragraph(words: string): string {
  return `<p>${escapeHtml(words).replaceAll("\n", "<br>")}</p>`;
}

function escapeHtml(words: string): string {
  return words.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}
