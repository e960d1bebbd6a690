"use server";

import { revalidatePath } from "next/cache";
import { forbidden, redirect } from "next/navigation";
import { z } from "zod";
import type { FormState } from "@/app/_components/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { BENCH_STEPS, type BenchStep } from "@/lib/domain/claims/bench-steps";
import { dispositionSchema, finishSchema } from "@/lib/inputs/bench-inspection";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { decideDisposition } from "@/lib/operations/decide-disposition";
import { finishInspection } from "@/lib/operations/finish-inspection";
import { openInspection, takeOverInspection } from "@/lib/operations/open-inspection";
import { saveInspectionStep } from "@/lib/operations/save-inspection-step";
import { donePath } from "../done";
import { doubtsInWords, FINISH_PROBLEMS } from "./bench-words";

const pathOf = (claimId: string) => `/queue/${claimId}/bench-inspection`;

/** The claim a form is about, and who sends it. */
async function here(claimIdGiven: string) {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  return { claimId, actor: await requireStaff(pathOf(claimId)) };
}

export async function openHere(claimIdGiven: string): Promise<void> {
  await requireOwnOrigin();
  const { claimId, actor } = await here(claimIdGiven);
  const opened = await openInspection(actor, claimId);
  if (!opened.ok && opened.reason === "not-allowed") forbidden();
  redirect(pathOf(claimId));
}

export async function takeOverHere(claimIdGiven: string): Promise<void> {
  await requireOwnOrigin();
  const { claimId, actor } = await here(claimIdGiven);
  const taken = await takeOverInspection(actor, claimId);
  if (!taken.ok && taken.reason === "not-allowed") forbidden();
  redirect(pathOf(claimId));
}

export async function saveStepHere(claimIdGiven: string, stepGiven: BenchStep, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const { claimId, actor } = await here(claimIdGiven);
  const step = z.enum(BENCH_STEPS).parse(stepGiven);
  const saved = await saveInspectionStep(actor, claimId, step, form);
  if (saved.ok) redirect(`${pathOf(claimId)}?after=${step}`);
  switch (saved.reason) {
    case "not-allowed":
      forbidden();
      break;
    case "another-unit":
      redirect(`${pathOf(claimId)}?step=identity`);
      break;
    case "refused":
      return { values: stringsOf(form), messages: saved.messages };
    case "held-by-another":
      revalidatePath(pathOf(claimId));
      return { values: stringsOf(form), messages: {}, problem: `${saved.holder} has taken this inspection over: this step was not kept` };
    case "not-on-the-bench":
      return { values: stringsOf(form), messages: {}, problem: "This inspection was finished meanwhile, or the unit is no longer here. What you wrote is still below" };
  }
}

export async function finishHere(claimIdGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const { claimId, actor } = await here(claimIdGiven);
  const values = stringsOf(form);
  const parsed = finishSchema.safeParse(values);
  if (!parsed.success) return { values, messages: messagesOf(parsed.error) };
  const finished = await finishInspection(actor, claimId, parsed.data);
  if (finished.ok) redirect(`${pathOf(claimId)}/disposition?inspected=yes`);
  if (finished.reason === "not-allowed") forbidden();
  if (finished.reason === "another-unit") redirect(`${pathOf(claimId)}?step=identity`);
  if (finished.reason === "nothing-found") return { values, messages: { note: "Record one finding at least, or say here why there is none" } };
  return { values, messages: {}, problem: FINISH_PROBLEMS[finished.reason] };
}

export async function decideDispositionHere(claimIdGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const { claimId, actor } = await here(claimIdGiven);
  const values = stringsOf(form);
  const parsed = dispositionSchema.safeParse(values);
  if (!parsed.success) return { values, messages: messagesOf(parsed.error) };
  const decided = await decideDisposition(actor, claimId, parsed.data);
  if (decided.ok) redirect(donePath(claimId, "dispositioned"));
  switch (decided.reason) {
    case "not-allowed":
      forbidden();
      break;
    case "doubted":
      return { values, messages: { reason: doubtsInWords(decided.doubts) } };
    case "past-day":
      return { values, messages: { keepUntil: "Choose today or a later day" } };
    case "on-the-bench":
      return { values, messages: {}, problem: "It is being inspected. Finish the inspection first" };
    case "changed-meanwhile":
      return { values, messages: {}, problem: "Somebody decided about it meanwhile. Load the page anew to see what" };
    case "not-here":
      return { values, messages: {}, problem: "This unit is not here any more" };
  }
}
