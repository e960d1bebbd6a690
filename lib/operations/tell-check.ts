import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { closeCheckRequest, countOpenCheckRequests, findClaimForCustomer, findOpenRequestFor } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { findStandingFinding, insertFinding } from "@/lib/data/findings";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { countTry } from "@/lib/data/rate-limit";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import { DONT_KNOW } from "@/lib/domain/intake/screens";
import { editionFor } from "./edition-for-reader";
import { mayTell } from "./may-tell";
import { rankClaim } from "./rank-claim";
import { readCheckAnswer } from "./read-check-answer";

export type TellCheckResult =
  | { ok: true }
  | { ok: false; reason: "refused"; messages: Record<string, string> }
  /** Not a check that a customer makes by themselves. */
  | { ok: false; reason: "unknown-check" }
  /** Decided or ended meanwhile. */
  | { ok: false; reason: "not-legal-here" }
  | { ok: false; reason: "too-many-tries" };

/**
 * The customer tells what a free check that was advised has found, on their own claim that is still open. The ranking moves
 * with it; where staff have asked for the same check, this answers them. The same told twice is one finding.
 */
export async function tellCheck(actor: CustomerActor, code: FindingCode, form: FormData, now: Date = new Date()): Promise<TellCheckResult> {
  const { claimId } = actor;
  const [claim, edition] = await Promise.all([findClaimForCustomer(claimId), loadEditionInForce()]);
  const observer = claim?.filedBy ?? "customer";
  const definition = editionFor(edition, actor).findings.find((finding) => finding.code === code);
  if (!claim || !definition || !mayTell(definition, observer)) return { ok: false, reason: "unknown-check" };
  const read = readCheckAnswer(definition, form, actor);
  if (!read.ok) return read;
  if (!(await countTry("filing", claimId))) return { ok: false, reason: "too-many-tries" };
  const found = read.found ?? { code, answer: DONT_KNOW, measured: null };

  return inTransaction(async (db): Promise<TellCheckResult> => {
    await lockClaim(db, claimId);
    const before = await findClaimForCustomer(claimId, db);
    if (!QUEUE_STAGES.some((open) => open === before?.stage)) return { ok: false, reason: "not-legal-here" };
    const standing = await findStandingFinding(db, claimId, code, observer);
    const isSame = standing !== null && standing.answer === found.answer && standing.measured === found.measured;
    const request = await findOpenRequestFor(db, claimId, code);
    if (isSame && !request) return { ok: true };
    const { id } = await insertFinding(db, { ...found, claimId, observer });
    await appendAudit(db, { actor: { kind: "customer" }, action: "tell_check", claimId, detail: { finding: code, told: found.answer !== DONT_KNOW } });
    await rankClaim(db, claimId);
    if (request) {
      await closeCheckRequest(db, request.id, id, now);
      if ((await countOpenCheckRequests(db, claimId)) === 0) await moveClaim(db, claimId, "answer_checks", { actor: { kind: "customer" } });
    }
    return { ok: true };
  });
}
