import "server-only";
import { randomBytes } from "node:crypto";
import { database, inTransaction, isUniqueViolation } from "@/lib/data/client";
import { findClaimByFilingKey, insertDraft } from "@/lib/data/drafts";
import { countTry } from "@/lib/data/rate-limit";
import type { Language } from "@/lib/domain/claims/languages";
import { makeReference } from "@/lib/domain/claims/reference";
import { FIRST_UNIT_SYSTEM, type UnitSystem } from "@/lib/domain/claims/unit-systems";
import { NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { sayIn } from "@/lib/messages/words";
import { newDraftKey } from "./claim-links";
import { describeForDraft } from "./load-screen";

export type StartDraftResult =
  | { ok: true; key: string }
  | { ok: false; reason: "refused"; messages: Record<string, string> }
  /** The form was posted again after the claim it began was filed. */
  | { ok: false; reason: "already-filed" }
  | { ok: false; reason: "too-many-tries" };

/**
 * Begins a draft with the answer of the first screen. Posting the same form twice begins one draft: the second gets a key
 * of its own to it. Open to anybody.
 *
 * @param filingKey made with the form, known to its browser alone
 * @param caller for counting drafts
 * @param language of the page, as the units are: the claim keeps both
 */
export async function startDraft(form: FormData, filingKey: string, caller: string, language: Language, units: UnitSystem = FIRST_UNIT_SYSTEM): Promise<StartDraftResult> {
  const screen = await describeForDraft("who", { answers: {}, purchase: NOTHING_KNOWN }, { language, units });
  const parsed = screenSchema(screen.fields, sayIn(language)).safeParse(typedValues(screen.fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  if (!(await countTry("draft", caller))) return { ok: false, reason: "too-many-tries" };
  const now = new Date();
  try {
    const key = await inTransaction(async (db) => {
      const { id } = await insertDraft(db, { reference: makeReference(randomBytes(64)), filingKey, language, units, answers: { who: parsed.data } });
      return newDraftKey(db, id, now);
    });
    return { ok: true, key };
  } catch (error) {
    if (!isUniqueViolation(error)) throw error;
    const begun = await findClaimByFilingKey(filingKey);
    if (begun?.stage !== "draft") return { ok: false, reason: "already-filed" };
    return { ok: true, key: await newDraftKey(database(), begun.id, now) };
  }
}
