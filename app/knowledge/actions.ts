"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import type { EditionIssue } from "@/lib/inputs/edition";
import { editionDecisionSchema } from "@/lib/inputs/edition-decision";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { discardEdition, promoteEdition } from "@/lib/operations/decide-edition";
import { askForDryRun } from "@/lib/operations/dry-run";
import { dropEditionDraft, keepEdits, openEditionDraft, proposeDraft } from "@/lib/operations/edition-drafts";
import { proposeEditionFile } from "@/lib/operations/exchange-edition";

const numberSchema = z.int().positive();
/** The form of a draft that is shown again: only one of its own. */
const PLACE = /^\/(causes\/C\d{2,3}|findings\/F\d{2,3})?$/;

export async function openDraftHere(basisGiven: number): Promise<void> {
  await requireOwnOrigin();
  const basis = numberSchema.parse(basisGiven);
  const actor = await requireStaff("/knowledge");
  const opened = await openEditionDraft(actor, basis);
  if (!opened.ok) return opened.reason === "not-allowed" ? forbidden() : notFound();
  redirect(`/knowledge/drafts/${opened.draftId}`);
}

/** Keeps a form of a draft, sound or not, and shows it again with what cannot stand. */
export async function keepEditsHere(draftIdGiven: string, place: string, form: FormData): Promise<void> {
  await requireOwnOrigin();
  const draftId = z.uuid().parse(draftIdGiven);
  const here = PLACE.test(place) ? place : "/";
  const actor = await requireStaff(`/knowledge/drafts/${draftId}`);
  const kept = await keepEdits(actor, draftId, stringsOf(form));
  if (!kept.ok && kept.reason === "not-allowed") forbidden();
  if (!kept.ok && kept.reason === "not-found") notFound();
  redirect(`/knowledge/drafts/${draftId}${here}?said=${kept.ok ? "kept" : "too-much"}`);
}

export async function proposeDraftHere(draftIdGiven: string, form: FormData): Promise<void> {
  await requireOwnOrigin();
  const draftId = z.uuid().parse(draftIdGiven);
  const actor = await requireStaff(`/knowledge/drafts/${draftId}`);
  const kept = await keepEdits(actor, draftId, stringsOf(form));
  const proposed = kept.ok ? await proposeDraft(actor, draftId) : kept;
  if (proposed.ok) redirect(`/knowledge/${proposed.number}?said=proposed`);
  if (proposed.reason === "not-allowed") forbidden();
  if (proposed.reason === "not-found") notFound();
  redirect(`/knowledge/drafts/${draftId}?said=${proposed.reason}`);
}

export async function dropDraftHere(draftIdGiven: string): Promise<void> {
  await requireOwnOrigin();
  const draftId = z.uuid().parse(draftIdGiven);
  const actor = await requireStaff(`/knowledge/drafts/${draftId}`);
  const dropped = await dropEditionDraft(actor, draftId);
  if (!dropped.ok) return dropped.reason === "not-allowed" ? forbidden() : notFound();
  redirect("/knowledge");
}

/** What a refused file comes back with. */
export interface FileFormState {
  why: string;
  issues: readonly EditionIssue[];
  problem?: string;
}

const FILE_PROBLEMS = {
  "too-big": "The file is larger than 1 MB: this is no edition",
  "not-json": "The file is not JSON that can be read. Nothing was kept",
  "unknown-basis": "The edition it was made from is not there any more. Load the page again",
  "nothing-changed": "It states what the edition in force states: there is nothing to propose",
  refused: "It cannot stand as it is. Nothing was kept",
} as const;

export async function proposeFileHere(basisGiven: number, _before: FileFormState, form: FormData): Promise<FileFormState> {
  await requireOwnOrigin();
  const basis = numberSchema.parse(basisGiven);
  const actor = await requireStaff("/knowledge");
  const file = form.get("file");
  const why = String(form.get("why") ?? "");
  if (!(file instanceof File) || file.size === 0) return { why, issues: [], problem: "Choose a file" };
  const proposed = await proposeEditionFile(actor, file.stream(), { basis, why });
  if (proposed.ok) redirect(`/knowledge/${proposed.number}?said=proposed`);
  if (proposed.reason === "not-allowed") forbidden();
  return { why, issues: proposed.reason === "refused" ? proposed.issues : [], problem: FILE_PROBLEMS[proposed.reason] };
}

export async function askForDryRunHere(numberGiven: number): Promise<void> {
  await requireOwnOrigin();
  const number = numberSchema.parse(numberGiven);
  const actor = await requireStaff(`/knowledge/${number}`);
  const asked = await askForDryRun(actor, number);
  if (asked.ok) redirect(`/knowledge/trials/${asked.trialId}`);
  if (asked.reason === "not-allowed") forbidden();
  if (asked.reason === "not-found") notFound();
  redirect(`/knowledge/${number}?said=${asked.reason}`);
}

export async function decideHere(numberGiven: number, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const number = numberSchema.parse(numberGiven);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = editionDecisionSchema.safeParse(stringsOf(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const isPromoting = form.get("act") === "promote";
  const decided = isPromoting ? await promoteEdition(actor, number, input.data) : await discardEdition(actor, number, input.data);
  if (decided.ok) redirect(`/knowledge/${number}?said=${isPromoting ? "promoted" : "discarded"}`);
  if (decided.reason === "not-allowed") forbidden();
  if (decided.reason === "not-found") notFound();
  if ("issues" in decided) {
    const [first] = decided.issues;
    return { values: stringsOf(form), messages: {}, problem: `It does not stand by the rules of today: ${first ? `${first.path}: ${first.message}` : "its form is unknown"}` };
  }
  const problem = "inForce" in decided ? `Edition ${decided.inForce} is in force, and this one was made from another. Tick that you know it` : "Somebody has decided about it meanwhile. Load the page again";
  return { values: stringsOf(form), messages: {}, problem };
}
