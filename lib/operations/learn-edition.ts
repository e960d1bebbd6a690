import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findEdition, findPromotedLast, loadEdition, lockEditions } from "@/lib/data/editions";
import { findBacktest, findLastLearningAct, insertBacktest, queueLearning } from "@/lib/data/learning-runs";
import { countClaimsFiled, countShippedByKit, countTrainingVerdicts, findTimeOfVerdict, listTrainingVerdicts, type TrainingCursor, type TrainingVerdict } from "@/lib/data/training-verdicts";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { type BacktestReport, backtestResult, LEAST_TO_LEARN_FROM, LEAST_TO_SCORE, SHARE_TO_LEARN_FROM, scoreLaterVerdict, startBacktest } from "@/lib/domain/learning/backtest";
import { beforeLearning } from "@/lib/domain/learning/before-learning";
import { causePutRight } from "@/lib/domain/learning/cleared-cause";
import { shareOutVehicles } from "@/lib/domain/learning/exposure";
import { learnedEdition } from "@/lib/domain/learning/propose-learned-edition";
import type { TrainingExample } from "@/lib/domain/learning/training-example";
import { countVerdict, sharesNamed, startCounts } from "@/lib/domain/learning/verdict-counts";
import { seededRandom } from "@/lib/domain/statistics/bootstrap-interval";
import { log } from "@/lib/log";
import { keepProposal } from "./propose-edition";
import { auditActor, refuse, type Refusal } from "./refusal";

export type AskToLearnResult =
  | { ok: true }
  /** Somebody has asked lately, and the worker is at it. */
  | { ok: false; reason: "learning-already" };

/** Why nothing was proposed. */
export const NOTHING_LEARNED = ["too-few-verdicts", "nothing-changed", "changed-meanwhile", "refused"] as const;
export type NothingLearned = (typeof NOTHING_LEARNED)[number];
export type LearnEditionResult = { ok: true; number: number } | { ok: false; reason: NothingLearned };

/** Verdicts read at a time. */
const BATCH = 200;
/** After so long without an answer the worker has lost the job, and it may be asked for again. */
const SILENCE_MS = 15 * 60_000;
/** Of the bootstrap: the same verdicts give the same limits. */
const SEED = 20_261_125;

/** Asks the worker to learn from the confirmed verdicts. What comes of it is a proposal: a person promotes it or not. */
export async function askToLearn(actor: StaffActor, now: Date = new Date()): Promise<AskToLearnResult | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction(async (db): Promise<AskToLearnResult> => {
    await lockEditions(db);
    const last = await findLastLearningAct(db);
    if (last?.action === "ask_to_learn" && now.getTime() - last.at.getTime() < SILENCE_MS) return { ok: false, reason: "learning-already" };
    await queueLearning(db, actor.personId);
    await appendAudit(db, { actor: auditActor(actor), action: "ask_to_learn" });
    return { ok: true };
  });
}

/**
 * Learns in the worker: figures from the earlier verdicts, read batch by batch, and scores from the later ones, which
 * taught neither edition; then proposes the edition and keeps its backtest with it. Learning begins at the figures as
 * they were before any verdict taught them, so that learning again counts no verdict twice.
 *
 * @param personId who asked
 */
export async function learnEdition(personId: string): Promise<LearnEditionResult> {
  const startedAt = new Date();
  const { number } = await findPromotedLast();
  const present = await loadEdition(number);
  const ancestors = await ancestorsOf(number);
  const splitAt = await whereToSplit([present, ...ancestors]);
  const learned = splitAt && (await learnUntil(splitAt, present, ancestors));
  const result = learned ? await propose(learned, { number, personId, startedAt }) : ({ ok: false, reason: "too-few-verdicts" } as const);
  if (!result.ok) await inTransaction((db) => appendAudit(db, { actor: { kind: "system" }, action: "learn_nothing", detail: { why: result.reason } }));
  log.info({ event: "learning-done", ...result });
  return result;
}

/**
 * Four fifths of the verdicts by time may teach. Where the edition in force, or one that it was made from, was learned, no
 * fewer than taught that one: what is in force must not be scored on what it has seen.
 */
async function whereToSplit(line: readonly Edition[]): Promise<Date | null> {
  const of = (await countTrainingVerdicts()).reduce((sum, { verdicts }) => sum + verdicts, 0);
  const at = await findTimeOfVerdict(Math.floor(SHARE_TO_LEARN_FROM * of));
  const backtests = await Promise.all(line.map(({ number }) => findBacktest(number)));
  const taughtUntil = Math.max(...backtests.map((backtest) => (backtest ? Date.parse(backtest.report.splitAt) : 0)));
  return at && new Date(Math.max(at.getTime(), taughtUntil));
}

async function learnUntil(splitAt: Date, present: Edition, ancestors: readonly Edition[]): Promise<{ edition: Edition; report: BacktestReport } | null> {
  const counts = startCounts(beforeLearning(present, ancestors));
  await readVerdicts({ until: splitAt }, counts.edition, (example) => countVerdict(counts, example));
  if (counts.all.verdicts < LEAST_TO_LEARN_FROM) return null;
  const [kits, claims] = await Promise.all([countShippedByKit(splitAt), countClaimsFiled(splitAt)]);
  const edition = learnedEdition(counts, { kits: shareOutVehicles(kits), claims }, present);

  const backtest = startBacktest(present, edition);
  let scored = 0;
  await readVerdicts({ from: splitAt }, counts.edition, (example) => {
    if (scoreLaterVerdict(backtest, example)) scored += 1;
  });
  if (scored < LEAST_TO_SCORE) return null;
  const views = backtestResult(backtest, sharesNamed(counts), seededRandom(SEED));
  return { edition, report: { splitAt: splitAt.toISOString(), learnedFrom: counts.all.verdicts, scored, views } };
}

async function propose({ edition, report }: { edition: Edition; report: BacktestReport }, by: { number: number; personId: string; startedAt: Date }): Promise<LearnEditionResult> {
  const { number, personId, startedAt } = by;
  const why = `Learned from ${report.learnedFrom} confirmed verdicts before ${report.splitAt.slice(0, 10)}, scored on the ${report.scored} from then on.`;
  return inTransaction(async (db): Promise<LearnEditionResult> => {
    await lockEditions(db);
    if ((await findPromotedLast(db)).number !== number) return { ok: false, reason: "changed-meanwhile" };
    const proposed = await keepProposal(db, { document: edition, basis: number, origin: "learned", why }, { actor: { kind: "staff", personId }, personId });
    if (!proposed.ok) return { ok: false, reason: proposed.reason === "nothing-changed" ? "nothing-changed" : "refused" };
    await insertBacktest(db, { editionNumber: proposed.number, againstNumber: number, askedById: personId, report, startedAt });
    return proposed;
  });
}

/** What an edition was made from, nearest first. */
async function ancestorsOf(number: number): Promise<Edition[]> {
  const ancestors: Edition[] = [];
  for (let basis = (await findEdition(number))?.basisNumber ?? null; basis !== null; basis = (await findEdition(basis))?.basisNumber ?? null) ancestors.push(await loadEdition(basis));
  return ancestors;
}

async function readVerdicts(period: { from?: Date; until?: Date }, edition: Edition, use: (example: TrainingExample) => void): Promise<void> {
  let after: TrainingCursor | null = null;
  for (;;) {
    const verdicts: TrainingVerdict[] = await listTrainingVerdicts(period, after, BATCH);
    const last = verdicts.at(-1);
    if (!last) return;
    after = { at: last.at, id: last.id };
    for (const { at, confirmation, primary, putRightBy, contributing, kit, vehicle, firstContact, later } of verdicts) {
      const cause = primary ?? (putRightBy && causePutRight(putRightBy.finding, putRightBy.observer, edition));
      if (cause) use({ confirmation, confirmedAt: at, primary: cause, contributing, kit, vehicle, firstContact, later });
    }
  }
}
