import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";

export const DESK_NOTE_FIELDS: readonly IntakeField[] = [{ name: "deskNote", kind: "text", label: "Note for the desk", hint: "The customer never sees it.", longest: LONGEST.words, lines: 3, missing: "Write a note" }];
