import { LONGEST, type IntakeField } from "@/lib/domain/intake/fields";

/** What may be said beside a check that is asked for; the question itself comes from the edition. */
export const CHECK_NOTE_FIELDS: readonly IntakeField[] = [{ name: "note", kind: "text", label: "Your words beside the question (optional)", longest: LONGEST.words, lines: 2 }];
