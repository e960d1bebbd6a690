import "server-only";
import type { Db } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import { loadSettings } from "@/lib/data/settings";
import { promisedAnswer } from "@/lib/domain/claims/promised-answer";

/**
 * A word of the customer after the claim had lapsed opens it again, with a new promise: the same claim, so that nothing they
 * told is asked again and one complaint is counted once. Does nothing to a claim in another stage. Part of the operations
 * by which a customer answers, which hold the claim.
 */
export async function comeBackIfLapsed(db: Db, claimId: string, now: Date): Promise<void> {
  const seller = await loadSettings(db);
  await moveClaim(db, claimId, "answer_late", { actor: { kind: "customer" } }, { changes: { promisedAt: promisedAnswer(now, seller.promisedAnswerHours, seller), firstAnswerAt: null } });
}
