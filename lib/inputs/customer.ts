import { LONGEST } from "@/lib/domain/intake/fields";
import type { IntakeField } from "@/lib/domain/intake/fields";

/** The forms of the customer's private page and of the first page, as fields for `screenSchema`. */
export const MESSAGE_FIELDS: readonly IntakeField[] = [
  { name: "body", kind: "text", label: "Your message", longest: LONGEST.words, lines: 5, missing: "Write a message" },
];

export const OBJECTION_FIELDS: readonly IntakeField[] = [
  { name: "reason", kind: "text", label: "Why do you see it otherwise?", hint: "A measurement, or a photo beside it, helps most.", longest: LONGEST.words, lines: 5, missing: "Say why you see it otherwise" },
];

export const DRAFT_LINK_FIELDS: readonly IntakeField[] = [{ name: "email", kind: "email", label: "E-mail address", missing: "Write your e-mail address" }];

export const CLAIM_LINK_FIELDS: readonly IntakeField[] = [
  { name: "reference", kind: "text", label: "Reference", hint: "Such as K7MP-4Q2-HXW; it stands in our mails.", longest: LONGEST.code, signs: "code", missing: "Write the reference" },
  { name: "email", kind: "email", label: "E-mail address you gave", missing: "Write your e-mail address" },
];
