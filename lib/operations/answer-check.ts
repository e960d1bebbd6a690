import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { closeCheckRequest, countOpenCheckRequests, findClaimForCustomer, findOpenCheckRequest } from "@/lib/data/claims-by-customer";
import { database, inTransaction } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { insertFinding } from "@/lib/data/findings";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { comeBackIfLapsed } from "./come-back";
import { editionFor } from "./edition-for-reader";
import { rankClaim } from "./rank-claim";
import { readCheckAnswer } from "./read-check-answer";

export type AnswerCheckResult =
  | { ok: true }
  | { ok: false; reason: "refused"; messages: Record<string, string> }
  /** Not a request of this claim, or answered or taken back meanwhile. */
  | { ok: false; reason: "not-open" };

/**
 * The customer answers a check that was asked for on their own claim. The ranking moves with the answer; "I can't tell"
 * closes the request without one. With the last answer the claim goes back into review, and
 * with any answer one that had lapsed.
 */
export async function answerCheck(actor: CustomerActor, requestId: string, form: FormData, now: Date = new Date()): Promise<AnswerCheckResult> {
  const { claimId } = actor;
  const [request, claim, edition] = await Promise.all([findOpenCheckRequest(database(), claimId, requestId), findClaimForCustomer(claimId), loadEditionInForce()]);
  const definition = editionFor(edition, actor).findings.find(({ code }) => code === request?.findingCode);
  if (!request || !claim || !definition) return { ok: false, reason: "not-open" };
  const read = readCheckAnswer(definition, form, actor);
  if (!read.ok) return read;
  const { found } = read;

  return inTransaction(async (db) => {
    // Two answers at once, to one check or to the last two, follow one another.
    await lockClaim(db, claimId);
    if (!(await findOpenCheckRequest(db, claimId, request.id))) return { ok: false, reason: "not-open" };
    const finding = found && (await insertFinding(db, { ...found, claimId, observer: claim.filedBy ?? "customer" }));
    await closeCheckRequest(db, request.id, finding?.id ?? null, now);
    await appendAudit(db, { actor: { kind: "customer" }, action: "answer_check", claimId, detail: { finding: request.findingCode, told: found !== null } });
    if (finding) await rankClaim(db, claimId);
    await comeBackIfLapsed(db, claimId, now);
    if ((await countOpenCheckRequests(db, claimId)) === 0) await moveClaim(db, claimId, "answer_checks", { actor: { kind: "customer" } });
    return { ok: true };
  });
}
