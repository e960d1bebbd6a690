import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { inTransaction } from "@/lib/data/client";
import { deleteEditionDraft, type EditionDraft, ensureEditionDraft, findEditionDraft, lockEditionDraft, updateEditionDraft } from "@/lib/data/edition-drafts";
import { findEdition, findPromotedLast, listCodesUsed, loadEdition } from "@/lib/data/editions";
import { diffEditions, type SubjectChange, unexplainedChanges } from "@/lib/domain/diagnosis/edition-diff";
import { applyEdits, type Edits, fieldOfIssue, isEditable, withoutUnchanged } from "@/lib/domain/diagnosis/edition-edits";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { type EditionIssue, readEdition } from "@/lib/inputs/edition";
import { keepProposal, type ProposeEditionResult } from "./propose-edition";
import { auditActor, refuse, type Refusal } from "./refusal";

export type { EditionDraft };

/** Opens this person's draft on an edition: the one begun before, or a new one. */
export async function openEditionDraft(actor: StaffActor, basis: number): Promise<{ ok: true; draftId: string } | { ok: false; reason: "not-found" } | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  if (!(await findEdition(basis))) return { ok: false, reason: "not-found" };
  return { ok: true, draftId: await ensureEditionDraft(actor.personId, basis) };
}

export interface DraftInWork {
  ok: true;
  draft: EditionDraft;
  basis: Edition;
  /** As it would be proposed; it may not be sound. */
  edited: Edition;
  diff: readonly SubjectChange[];
  /** What cannot stand yet, by the field it is shown beside. */
  issues: readonly EditionIssue[];
  /** Number of the edition in force, where the draft was made from another. */
  inForce: number;
  /** Codes for the next cause and the next finding: none is ever used twice. */
  nextCodes: { cause: string; finding: string };
}

/** A draft as its pages show it: what is typed, what that changes, and what cannot stand yet. */
export async function loadEditionDraft(actor: StaffActor, draftId: string): Promise<DraftInWork | { ok: false; reason: "not-found" } | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  const draft = await findEditionDraft(actor.personId, draftId);
  if (!draft) return { ok: false, reason: "not-found" };
  const [basis, { number: inForce }, used] = await Promise.all([loadEdition(draft.basisNumber), findPromotedLast(), listCodesUsed()]);
  const edited = applyEdits(basis, draft.typed);
  return {
    ok: true,
    draft,
    basis,
    edited,
    diff: diffEditions(basis, edited),
    issues: issuesOf(basis, edited),
    inForce,
    nextCodes: { cause: nextCode("C", [...used, ...edited.causes.map(({ code }) => code)]), finding: nextCode("F", [...used, ...edited.findings.map(({ code }) => code)]) },
  };
}

function issuesOf(basis: Edition, edited: Edition): EditionIssue[] {
  const read = readEdition(edited);
  const unexplained = unexplainedChanges(basis, edited).map((path) => ({ path: path.replace(/\.value$/, ".provenance"), message: "Say where the new figure comes from." }));
  const issues = [...(read.ok ? [] : read.issues), ...unexplained].map(({ path, message }) => ({ path: fieldOfIssue(path), message }));
  // Several observers' figures share one ground, and miss it together.
  return issues.filter(({ path, message }, place) => issues.findIndex((other) => other.path === path && other.message === message) === place);
}

/** @example after C01 and C23: "C24" */
function nextCode(letter: "C" | "F", used: readonly string[]): string {
  const highest = Math.max(0, ...used.filter((code) => code.startsWith(letter)).map((code) => Number(code.slice(1)) || 0));
  return `${letter}${String(highest + 1).padStart(2, "0")}`;
}

/** A field longer than this, or more fields, were not typed. */
const LONGEST_TYPED = 2000;
const MOST_FIELDS = 5000;

/**
 * Keeps what was typed on one form of a draft, sound or not, beside what was typed on the others; a field typed as it
 * stands in the basis is forgotten. What cannot be such a field is passed over.
 */
export async function keepEdits(actor: StaffActor, draftId: string, typed: Edits): Promise<{ ok: true } | { ok: false; reason: "not-found" | "too-much" } | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const draft = await lockEditionDraft(db, actor.personId, draftId);
    if (!draft) return { ok: false, reason: "not-found" };
    const fields = Object.entries(typed).filter(([field]) => isEditable(field));
    const edits = withoutUnchanged({ ...draft.typed, ...Object.fromEntries(fields) }, await loadEdition(draft.basisNumber, db));
    if (Object.keys(edits).length > MOST_FIELDS || fields.some(([, value]) => value.length > LONGEST_TYPED)) return { ok: false, reason: "too-much" };
    await updateEditionDraft(db, draftId, edits);
    return { ok: true };
  });
}

/** Proposes what a draft has become; the draft is done with then. Refused, it stays as it is. */
export async function proposeDraft(actor: StaffActor, draftId: string): Promise<ProposeEditionResult | { ok: false; reason: "not-found" } | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction(async (db): Promise<ProposeEditionResult | { ok: false; reason: "not-found" }> => {
    const draft = await lockEditionDraft(db, actor.personId, draftId);
    if (!draft) return { ok: false, reason: "not-found" };
    const document = applyEdits(await loadEdition(draft.basisNumber, db), draft.typed);
    const proposal = { document, basis: draft.basisNumber, origin: "by_hand", why: draft.typed.why ?? "" } as const;
    const kept = await keepProposal(db, proposal, { actor: auditActor(actor), personId: actor.personId });
    if (kept.ok) await deleteEditionDraft(db, actor.personId, draftId);
    return kept;
  });
}

/** Throws a draft away. */
export async function dropEditionDraft(actor: StaffActor, draftId: string): Promise<{ ok: true } | { ok: false; reason: "not-found" } | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction(async (db) => ((await deleteEditionDraft(db, actor.personId, draftId)) ? { ok: true } : { ok: false, reason: "not-found" }));
}
