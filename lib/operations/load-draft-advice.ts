import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { findDraft } from "@/lib/data/drafts";
import type { Caution } from "@/lib/domain/diagnosis/cautions";
import { checksFromAnswers } from "@/lib/domain/intake/advice-from-answers";
import { findingsFromAnswers } from "@/lib/domain/intake/findings-from-answers";
import { firstOpenScreen } from "@/lib/domain/intake/intake-path";
import type { Screen } from "@/lib/domain/intake/answers";
import { shownFinding } from "@/lib/domain/intake/shown-answers";
import { checksTold } from "@/lib/domain/intake/told-checks";
import { sayIn } from "@/lib/messages/words";
import { type AdvisedField, withField } from "./advised-field";
import { editionFor } from "./edition-for-reader";
import { loadBasis } from "./intake-basis";
import { stopInWords } from "./load-screen";

export interface DraftAdvice {
  reference: string;
  checks: readonly AdvisedField[];
  /** What checks made already have found, by question. */
  told: readonly { code: string; question: string; answer: string }[];
  stop: Caution | null;
  /** Where the intake goes on; null: the review. */
  next: Screen | null;
}

/** What can be checked now, before anything is filed; null once it is. */
export async function loadDraftAdvice(actor: CustomerActor): Promise<DraftAdvice | null> {
  const draft = await findDraft(actor.claimId);
  if (!draft) return null;
  const basis = await loadBasis();
  const edition = editionFor(basis.edition, actor);
  const say = sayIn(actor.language);
  const told = checksTold(draft.answers);
  return {
    reference: draft.reference,
    checks: checksFromAnswers(draft, { ...basis, edition }).flatMap((check) => withField(check, edition, actor)),
    told: findingsFromAnswers(draft, edition).flatMap((found) => {
      const definition = told.includes(found.code) && edition.findings.find(({ code }) => code === found.code);
      const shown = definition && shownFinding(definition, { typedValue: null, typedUnit: null, ...found }, say);
      return definition && shown ? [{ code: found.code, question: definition.question, answer: shown }] : [];
    }),
    stop: stopInWords(draft, basis.edition, actor.language),
    next: firstOpenScreen(draft, basis),
  };
}
