import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import type { Say } from "@/lib/domain/say";

/** The forms of the customer's private page and of the first page, as fields for `screenSchema`. */
export const messageFields = (say: Say): readonly IntakeField[] => [
  { name: "body", kind: "text", label: say("claim.messages.body"), longest: LONGEST.words, lines: 5, missing: say("claim.messages.bodyMissing") },
];

export const objectionFields = (say: Say): readonly IntakeField[] => [
  { name: "reason", kind: "text", label: say("claim.objection.reason"), hint: say("claim.objection.reasonHint"), longest: LONGEST.words, lines: 5, missing: say("claim.objection.reasonMissing") },
];

export const draftLinkFields = (say: Say): readonly IntakeField[] => [{ name: "email", kind: "email", label: say("intake.contact.email"), missing: say("intake.contact.emailMissing") }];

export const claimLinkFields = (say: Say): readonly IntakeField[] => [
  { name: "reference", kind: "text", label: say("find.reference"), hint: say("find.referenceHint"), longest: LONGEST.code, signs: "code", missing: say("find.referenceMissing") },
  { name: "email", kind: "email", label: say("find.email"), missing: say("intake.contact.emailMissing") },
];
