import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findDraft, updateDraft } from "@/lib/data/drafts";
import { countTry } from "@/lib/data/rate-limit";
import type { IntakeAnswers, Screen } from "@/lib/domain/intake/answers";
import { firstOpenScreen, mayShow, screenAfter, withTurn } from "@/lib/domain/intake/intake-path";
import { withoutChecksOf } from "@/lib/domain/intake/told-checks";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { sayIn } from "@/lib/messages/words";
import { findMyPurchase } from "./find-my-purchase";
import { loadBasis } from "./intake-basis";
import { describeForDraft } from "./load-screen";

export type SaveAnswerResult =
  | { ok: true; next: Screen | null; firstOpen: Screen | null }
  | { ok: false; reason: "refused"; messages: Record<string, string> }
  | { ok: false; reason: "no-such-order" | "no-such-serial" | "too-many-tries" | "changed-meanwhile" }
  /** The claim was filed, in this browser or another. */
  | { ok: false; reason: "already-filed" }
  | { ok: false; reason: "not-yet"; goTo: Screen | null };

/** Answers that an earlier answer has settled, when it changes. */
const SETTLES: Partial<Record<Screen, readonly Screen[]>> = {
  purchase: ["order", "item", "serial", "kit", "vehicle"],
  order: ["item", "kit", "vehicle"],
  item: ["vehicle"],
  serial: ["kit", "vehicle"],
  kit: ["vehicle"],
};

/**
 * Checks and keeps the answers of one screen of the customer's own draft. The columns that the purchase tells change with
 * it.
 *
 * @param caller for counting look-ups of orders and serials
 */
export async function saveAnswer(actor: CustomerActor, screen: Screen, form: FormData, caller: string): Promise<SaveAnswerResult> {
  const draft = await findDraft(actor.claimId);
  if (!draft) return { ok: false, reason: "already-filed" };
  const basis = await loadBasis();
  if (!mayShow(screen, draft, basis)) return { ok: false, reason: "not-yet", goTo: firstOpenScreen(draft, basis) };

  const { fields } = await describeForDraft(screen, draft, actor);
  const parsed = screenSchema(fields, sayIn(actor.language)).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const isLookup = screen === "order" || screen === "serial";
  if (isLookup && !(await countTry("lookup", caller))) return { ok: false, reason: "too-many-tries" };
  const found = await findMyPurchase(screen, parsed.data, draft.answers, form.get("goesOnWithout") === "yes");
  if (!found.ok) return found;

  const answers: IntakeAnswers = { ...withoutChecksOf(screen, withoutSettled(screen, found.values, draft.answers)), [screen]: withTurn(screen, found.values, draft.answers) };
  if (!(await updateDraft(database(), draft, { ...found.changes, answers }))) return { ok: false, reason: "changed-meanwhile" };
  const saved = await findDraft(actor.claimId);
  if (!saved) return { ok: false, reason: "already-filed" };
  return { ok: true, next: screenAfter(screen, saved, basis), firstOpen: firstOpenScreen(saved, basis) };
}

/** The other answers, without those that this one settles anew. Part of the operations that keep answers. */
export function withoutSettled(screen: Screen, values: Readonly<Record<string, string>>, answers: IntakeAnswers): IntakeAnswers {
  const before = answers[screen];
  const isSame = before !== undefined && Object.entries(values).every(([name, value]) => before[name] === value);
  if (isSame) return answers;
  const settled = new Set<string>(SETTLES[screen] ?? []);
  return Object.fromEntries(Object.entries(answers).filter(([other]) => !settled.has(other)));
}
