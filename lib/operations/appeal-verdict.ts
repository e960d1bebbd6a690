import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { insertCustomerMessage } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { loadSettings } from "@/lib/data/settings";
import { reopenDecidedClaim } from "@/lib/data/verdicts";
import { promisedAnswer } from "@/lib/domain/claims/promised-answer";
import { objectionFields } from "@/lib/inputs/customer";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { sayIn } from "@/lib/messages/words";

export type AppealVerdictResult =
  | { ok: true }
  | { ok: false; reason: "refused"; messages: Record<string, string> }
  /** Not decided yet, or in review again already. */
  | { ok: false; reason: "not-decided" };

/**
 * The customer sees a verdict on their own claim otherwise: the claim goes back into review with their reason as a
 * message, and another answer is promised, by a second person. The verdict no longer stands, and stays in the claim's story.
 */
export async function appealVerdict(actor: CustomerActor, form: FormData, now: Date = new Date()): Promise<AppealVerdictResult> {
  const fields = objectionFields(sayIn(actor.language));
  const parsed = screenSchema(fields, sayIn(actor.language)).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const reason = parsed.data.reason ?? "";
  const seller = await loadSettings();
  const promisedAt = promisedAnswer(now, seller.promisedAnswerHours, seller);
  return inTransaction(async (db): Promise<AppealVerdictResult> => {
    const moved = await reopenDecidedClaim(db, actor.claimId, { actor: { kind: "customer" } }, reason, now, { promisedAt, firstAnswerAt: null });
    if (!moved.ok) return { ok: false, reason: "not-decided" };
    await insertCustomerMessage(db, actor.claimId, reason);
    return { ok: true };
  });
}
