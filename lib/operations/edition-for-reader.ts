import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { editionInLanguage } from "@/lib/domain/diagnosis/edition-in-language";
import { editionInUnits } from "@/lib/domain/intake/amounts-in-units";
import { sayIn } from "@/lib/messages/words";

/** How a customer reads. */
export type Reader = Pick<CustomerActor, "language" | "units">;

/** The edition in the words and amounts that a customer reads. Part of other operations. */
export function editionFor(edition: Edition, { language, units }: Reader): Edition {
  return editionInUnits(editionInLanguage(edition, language), units, sayIn(language));
}
