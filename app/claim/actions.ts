"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import type { FormState } from "@/app/_components/form-state";
import { callerAddress } from "@/lib/access/caller";
import { keepClaimKey, requireCustomer } from "@/lib/access/customer";
import { currentWords, keepLanguage } from "@/lib/access/language";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { stringsOf } from "@/lib/inputs/form";
import { wordsIn } from "@/lib/messages/words";
import { answerCheck } from "@/lib/operations/answer-check";
import { appealVerdict } from "@/lib/operations/appeal-verdict";
import { clearClaim } from "@/lib/operations/clear-claim";
import { tellCheck } from "@/lib/operations/tell-check";
import { openClaimLink } from "@/lib/operations/open-claim-link";
import { requestClaimLink } from "@/lib/operations/request-claim-link";
import { withdrawClaim } from "@/lib/operations/withdraw-claim";
import { writeCustomerMessage } from "@/lib/operations/write-customer-message";

const reference = z.string().max(40);
const findingCode = z.string().max(10);

/** Mails a new link; the answer is the same whether there is such a claim or not. */
export async function askForLink(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const words = await currentWords();
  const asked = await requestClaimLink(form, await callerAddress(), words.language);
  if (asked.ok) return { messages: {}, sent: true };
  const values = stringsOf(form);
  return asked.reason === "refused" ? { messages: asked.messages, values } : { messages: {}, values, problem: words("intake.problem.too-many-links") };
}

/** Spends a mailed key: this browser follows the claim. */
export async function openLink(referenceGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const opened = await openClaimLink(reference.parse(referenceGiven), z.string().max(200).parse(form.get("key")));
  if (!opened.ok) return { messages: {}, problem: (await currentWords())("find.open.spent") };
  await keepClaimKey(opened.reference, opened.key);
  await keepLanguage(opened.language);
  redirect(`/claim/${opened.reference}`);
}

export async function answerAskedCheck(referenceGiven: string, requestId: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const answered = await answerCheck(actor, z.uuid().parse(requestId), form);
  if (!answered.ok && answered.reason === "refused") return { messages: answered.messages, values: stringsOf(form) };
  if (!answered.ok) return { messages: {}, problem: wordsIn(actor.language)("claim.problem.check-closed") };
  redirect(`/claim/${actor.reference}?done=check`);
}

export async function writeMessage(referenceGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const written = await writeCustomerMessage(actor, form);
  if (written.ok) {
    // After the first message the address stays the same, and the browser would show what it has.
    revalidatePath(`/claim/${actor.reference}`);
    redirect(`/claim/${actor.reference}?done=message#messages`);
  }
  return written.reason === "refused" ? { messages: written.messages, values: stringsOf(form) } : { messages: {}, values: stringsOf(form), problem: wordsIn(actor.language)("claim.problem.too-many-messages") };
}

export async function appealMyVerdict(referenceGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const appealed = await appealVerdict(actor, form);
  if (appealed.ok) redirect(`/claim/${actor.reference}?done=appeal`);
  return appealed.reason === "refused" ? { messages: appealed.messages, values: stringsOf(form) } : { messages: {}, values: stringsOf(form), problem: wordsIn(actor.language)("claim.problem.looked-at") };
}

/** What a check that was advised has found. */
export async function tellMyCheck(referenceGiven: string, finding: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const told = await tellCheck(actor, finding, form);
  if (told.ok) redirect(`/claim/${actor.reference}?done=check`);
  const values = stringsOf(form);
  if (told.reason === "refused") return { messages: told.messages, values };
  const words = wordsIn(actor.language);
  return { messages: {}, values, problem: told.reason === "too-many-tries" ? words("claim.problem.too-many-messages") : told.reason === "unknown-check" ? words("claim.problem.check-closed") : words("claim.problem.ended") };
}

/** @param check the one that put it right, or null where none is named */
export async function clearMyClaim(referenceGiven: string, check: string | null, _before: FormState, _form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const cleared = await clearClaim(actor, check === null ? undefined : findingCode.parse(check));
  if (!cleared.ok) return { messages: {}, problem: wordsIn(actor.language)("claim.problem.ended") };
  redirect(`/claim/${actor.reference}`);
}

export async function withdrawMyClaim(referenceGiven: string, _before: FormState, _form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const withdrawn = await withdrawClaim(actor);
  if (!withdrawn.ok) return { messages: {}, problem: wordsIn(actor.language)("claim.problem.ended") };
  redirect(`/claim/${actor.reference}`);
}
