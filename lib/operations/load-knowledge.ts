import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type EditionRow, findEdition, findPromotedLast, listEditions, listEditionStory, loadEdition } from "@/lib/data/editions";
import { type EditionDraft, listEditionDrafts } from "@/lib/data/edition-drafts";
import { findTrial, listTrialChanges, listTrials, type Trial } from "@/lib/data/trials";
import { loadSettings } from "@/lib/data/settings";
import { may } from "@/lib/domain/claims/permissions";
import { diffEditions, type SubjectChange } from "@/lib/domain/diagnosis/edition-diff";
import { type EditionState, editionState } from "@/lib/domain/diagnosis/editions";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { refuse, type Refusal } from "./refusal";

export type { EditionRow, Trial };

export interface EditionListed extends EditionRow {
  state: EditionState;
}

export interface EditionList {
  ok: true;
  inForce: Edition;
  editions: readonly EditionListed[];
  /** Drafts of whoever asks. */
  drafts: readonly EditionDraft[];
  mayChange: boolean;
  timeZone: string;
}

/** Every edition of the knowledge, the newest first, and the one in force. */
export async function loadEditions(actor: StaffActor): Promise<EditionList | Refusal> {
  const refused = await refuse(actor, "see the knowledge");
  if (refused) return refused;
  const mayChange = may(actor.role, "change the knowledge");
  const [{ number }, rows, drafts, { timeZone }] = await Promise.all([findPromotedLast(), listEditions(), mayChange ? listEditionDrafts(actor.personId) : [], loadSettings()]);
  return { ok: true, inForce: await loadEdition(number), editions: rows.map((row) => ({ ...row, state: editionState(row, number) })), drafts, mayChange, timeZone };
}

export interface EditionShown {
  ok: true;
  row: EditionListed;
  edition: Edition;
  /** Number of the edition in force. */
  inForce: number;
  /** Against the edition it was made from; empty for what was shipped. */
  diff: readonly SubjectChange[];
  trials: readonly Trial[];
  story: Awaited<ReturnType<typeof listEditionStory>>;
  mayChange: boolean;
  timeZone: string;
}

/** One edition with what it changed, how it was tried and what became of it. */
export async function loadKnowledge(actor: StaffActor, number: number): Promise<EditionShown | { ok: false; reason: "not-found" } | Refusal> {
  const refused = await refuse(actor, "see the knowledge");
  if (refused) return refused;
  const row = await findEdition(number);
  if (!row) return { ok: false, reason: "not-found" };
  const [edition, last, trials, story, { timeZone }] = await Promise.all([loadEdition(number), findPromotedLast(), listTrials(number), listEditionStory(number), loadSettings()]);
  const diff = row.basisNumber === null ? [] : diffEditions(await loadEdition(row.basisNumber), edition);
  return { ok: true, row: { ...row, state: editionState(row, last.number) }, edition, inForce: last.number, diff, trials, story, mayChange: may(actor.role, "change the knowledge"), timeZone };
}

export interface TrialShown {
  ok: true;
  trial: Trial;
  /** The two editions, for the names of their causes. */
  edition: Edition;
  against: Edition;
  changes: Awaited<ReturnType<typeof listTrialChanges>>;
  /** Of the list of claims. */
  page: number;
  hasMore: boolean;
  timeZone: string;
}

const PER_PAGE = 100;

/** A trial as far as it is, with one page of the claims it leads otherwise. */
export async function loadTrial(actor: StaffActor, trialId: string, page: number): Promise<TrialShown | { ok: false; reason: "not-found" } | Refusal> {
  const refused = await refuse(actor, "see the knowledge");
  if (refused) return refused;
  const trial = await findTrial(trialId);
  if (!trial) return { ok: false, reason: "not-found" };
  const [edition, against, changes, { timeZone }] = await Promise.all([
    loadEdition(trial.editionNumber),
    loadEdition(trial.againstNumber),
    listTrialChanges(trialId, { skip: (page - 1) * PER_PAGE, take: PER_PAGE + 1 }),
    loadSettings(),
  ]);
  return { ok: true, trial, edition, against, changes: changes.slice(0, PER_PAGE), page, hasMore: changes.length > PER_PAGE, timeZone };
}
