"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { stringsOf } from "@/lib/inputs/form";
import { handOverSchema } from "@/lib/inputs/several-claims";
import { askForCheck } from "@/lib/operations/ask-for-check";
import { needNoAnswer } from "@/lib/operations/need-no-answer";
import { rankAnew } from "@/lib/operations/rank-anew";
import { recordFinding } from "@/lib/operations/record-finding";
import { reopenOnAppeal } from "@/lib/operations/reopen-on-appeal";
import { takeClaim } from "@/lib/operations/take-claim";
import { withdrawCheck } from "@/lib/operations/withdraw-check";
import { writeStaffMessage } from "@/lib/operations/write-staff-message";
import { type DoneCode, donePath } from "./done";
import { refusalInWords } from "./refusals";
import { staffOf } from "./staff-of";

const identifier = z.guid();
const code = z.string().max(10);

type Outcome = { ok: true } | { ok: false; reason: string; stage?: ClaimStage; messages?: Readonly<Record<string, string>> };

/** Back to the claim when it is done; else the form with what was typed. */
function answer(claimId: string, form: FormData, outcome: Outcome, done: DoneCode, anchor = ""): DeskFormState {
  if (outcome.ok) redirect(donePath(claimId, done) + anchor);
  const values = stringsOf(form);
  return outcome.messages ? { values, messages: outcome.messages } : { values, messages: {}, problem: refusalInWords(outcome) };
}

export async function take(claimId: string, from: string | null, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  const { to, note } = handOverSchema.parse({ to: form.get("to"), note: form.get("note") ?? "" });
  return answer(claimId, form, await takeClaim(actor, claimId, { from, to: to || null, note }), "taken");
}

export async function ask(claimId: string, finding: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await askForCheck(actor, claimId, code.parse(finding), form), "asked", "#checks");
}

export async function takeBack(claimId: string, requestId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await withdrawCheck(actor, claimId, identifier.parse(requestId)), "withdrawn", "#checks");
}

export async function record(claimId: string, finding: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await recordFinding(actor, claimId, code.parse(finding), form), "recorded", "#findings");
}

export async function rankAgain(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await rankAnew(actor, claimId), "rankedAnew");
}

export async function write(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await writeStaffMessage(actor, claimId, form), "written", "#messages");
}

export async function setAside(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await needNoAnswer(actor, claimId), "setAside", "#messages");
}

export async function reopen(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  const { reason = "" } = stringsOf(form);
  return answer(claimId, form, await reopenOnAppeal(actor, claimId, { reason }), "reopened");
}
