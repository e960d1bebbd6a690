import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { countClaimsToRank, listClaimsToRank } from "@/lib/data/claims-to-rank";
import { inTransaction } from "@/lib/data/client";
import { findEdition, findPromotedLast, loadEdition, lockEditions } from "@/lib/data/editions";
import { findTrial, finishTrial, giveUpTrials, insertTrial, insertTrialChanges, markTrialProgress, startTrial, type TrialChangeRow } from "@/lib/data/trials";
import { dryRunTally } from "@/lib/domain/diagnosis/dry-run";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { fittingObservations } from "@/lib/domain/diagnosis/fitting-observations";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { log } from "@/lib/log";
import { auditActor, refuse, type Refusal } from "./refusal";

export type AskForDryRunResult =
  | { ok: true; trialId: string }
  | { ok: false; reason: "not-found" }
  /** It is in force: there is nothing to compare it with. */
  | { ok: false; reason: "in-force" }
  | { ok: false; reason: "runs-already" };

/** Claims ranked between two signs of life: about a second's work. */
const BATCH = 50;
/** A trial without a sign of life for so long has lost its worker. */
const SILENCE_MS = 10 * 60_000;

/** Asks the worker to rank every filed claim with this edition beside the one in force. Nothing of a claim changes. */
export async function askForDryRun(actor: StaffActor, editionNumber: number, now: Date = new Date()): Promise<AskForDryRunResult | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction(async (db): Promise<AskForDryRunResult> => {
    await lockEditions(db);
    if (!(await findEdition(editionNumber, db))) return { ok: false, reason: "not-found" };
    const { number: againstNumber } = await findPromotedLast(db);
    if (againstNumber === editionNumber) return { ok: false, reason: "in-force" };
    await giveUpTrials(db, new Date(now.getTime() - SILENCE_MS));
    const trialId = await insertTrial(db, { editionNumber, againstNumber, kind: "dry_run", askedById: actor.personId });
    if (!trialId) return { ok: false, reason: "runs-already" };
    await appendAudit(db, { actor: auditActor(actor), action: "ask_for_dry_run", detail: { edition: editionNumber, against: againstNumber } });
    return { ok: true, trialId };
  });
}

/**
 * Runs a dry run in the worker: every filed claim's standing observations ranked with both editions, batch by batch, so
 * that memory does not grow with the number of claims. Asked again after a crash it begins anew.
 */
export async function runDryRun(trialId: string): Promise<void> {
  const trial = await findTrial(trialId);
  const of = await countClaimsToRank();
  if (!trial || !(await startTrial(trialId, of))) return;
  const [edition, against] = await Promise.all([loadEdition(trial.editionNumber), loadEdition(trial.againstNumber)]);
  const tally = dryRunTally();
  try {
    let last: string | null = null;
    for (;;) {
      const claims = await listClaimsToRank(last, BATCH);
      if (claims.length === 0) break;
      const changes = claims.flatMap(({ id, observations, fuel, context, verdict }): TrialChangeRow[] => {
        const [before, after] = [against, edition].map((one) => editionForFuel(one, fuel)).map((one) => rankCauses(fittingObservations(observations, one), one, context));
        if (!before || !after) throw new Error("runDryRun ranks with two editions");
        const compared = tally.add(before, after, verdict);
        if (!compared.isLedOtherwise) return [];
        return [
          {
            claimId: id,
            beforeCause: compared.before?.code ?? null,
            beforeProbability: compared.before?.probability ?? null,
            afterCause: compared.after?.code ?? null,
            afterProbability: compared.after?.probability ?? null,
            unitShift: compared.unitShift,
          },
        ];
      });
      await insertTrialChanges(trialId, changes);
      last = claims.at(-1)?.id ?? null;
      if (!(await markTrialProgress(trialId, { done: tally.result().claims, of }))) return;
    }
  } catch (error) {
    await finishTrial(trialId, { failure: "Ranking the stored claims failed; the log says at what." });
    throw error;
  }
  const { claims, otherLeader } = tally.result();
  await finishTrial(trialId, { result: { ...tally.result() } });
  log.info({ event: "dry-run-done", trialId, edition: trial.editionNumber, claims, otherLeader });
}
