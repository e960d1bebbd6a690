import "server-only";
import type { AdvisedCheck } from "@/lib/domain/diagnosis/advice";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { IntakeField } from "@/lib/domain/intake/fields";
import { DONT_KNOW } from "@/lib/domain/intake/screens";
import type { Reader } from "./edition-for-reader";
import { checkField } from "./read-check-answer";

/**
 * A check as it is advised, with the field to tell what it found. How to look stands above the field already; who does not
 * know need not tell.
 */
export interface AdvisedField extends AdvisedCheck {
  part: OilPathPart;
  field: IntakeField;
}

/** Part of other operations. */
export function withField(check: AdvisedCheck, edition: Edition, reader: Reader): AdvisedField[] {
  const definition = edition.findings.find(({ code }) => code === check.finding);
  if (!definition) return [];
  const { hint: _, how: __, ...field } = checkField(definition, reader);
  return [{ ...check, part: definition.part, field: field.kind === "choice" ? { ...field, options: field.options.filter(({ value }) => value !== DONT_KNOW) } : field }];
}
