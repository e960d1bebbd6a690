import { LONGEST, type IntakeField } from "@/lib/domain/intake/fields";

export const STAFF_MESSAGE_FIELDS: readonly IntakeField[] = [{ name: "body", kind: "text", label: "Message to the customer", longest: LONGEST.words, lines: 4, missing: "Write a message" }];
