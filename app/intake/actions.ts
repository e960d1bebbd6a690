"use server";

import { revalidatePath } from "next/cache";
import { RedirectType, redirect } from "next/navigation";
import { z } from "zod";
import type { FormState } from "@/app/_components/form-state";
import { callerAddress } from "@/lib/access/caller";
import { currentIntakeCustomer, dropDraftKey, keepClaimKey, keepDraftKey } from "@/lib/access/customer";
import { currentLanguage } from "@/lib/access/language";
import { currentUnits } from "@/lib/access/units";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { SCREENS } from "@/lib/domain/intake/answers";
import { stringsOf } from "@/lib/inputs/form";
import { fileClaim } from "@/lib/operations/file-claim";
import { removePhoto } from "@/lib/operations/remove-photo";
import { resumeDraft } from "@/lib/operations/resume-draft";
import { clearDraft } from "@/lib/operations/clear-draft";
import { saveAnswer } from "@/lib/operations/save-answer";
import { sendDraftLink } from "@/lib/operations/send-draft-link";
import { startDraft } from "@/lib/operations/start-draft";
import { tellDraftCheck } from "@/lib/operations/tell-draft-check";
import { inWords } from "./problems";

const findingCode = z.string().max(10);

/** Keeps one screen's answers and leads to the next. The first screen begins the draft. */
export async function saveScreen(screenGiven: string, filingKeyGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const screen = z.enum(SCREENS).parse(screenGiven);
  const refused = (state: FormState): FormState => ({ ...state, values: stringsOf(form) });
  const customer = await currentIntakeCustomer();

  if (!customer) {
    if (screen !== "who") redirect("/intake");
    const started = await startDraft(form, z.uuid().parse(filingKeyGiven), await callerAddress(), await currentLanguage(), await currentUnits());
    if (started.ok) {
      await keepDraftKey(started.key);
      redirect("/intake/purchase");
    }
    if (started.reason === "already-filed") redirect("/intake");
    return refused(started.reason === "refused" ? { messages: started.messages } : { messages: {}, problem: await inWords("too-many-drafts") });
  }

  const saved = await saveAnswer(customer.actor, screen, form, await callerAddress());
  if (saved.ok) {
    // Back then shows what was answered, not the page as it first came.
    revalidatePath("/intake", "layout");
    redirect(`/intake/${(form.get("from") === "review" ? saved.firstOpen : saved.next) ?? "review"}`);
  }
  switch (saved.reason) {
    case "refused":
      return refused({ messages: saved.messages });
    case "no-such-order":
      return refused({ messages: { number: await inWords(saved.reason) }, offersToGoOn: true });
    case "no-such-serial":
      return refused({ messages: { serial: await inWords(saved.reason) }, offersToGoOn: true });
    case "too-many-tries":
      return refused({ messages: {}, problem: await inWords(saved.reason), offersToGoOn: true });
    case "changed-meanwhile":
      return refused({ messages: {}, problem: await inWords(saved.reason) });
    case "not-yet":
      return redirect(`/intake/${saved.goTo ?? "review"}`);
    case "already-filed":
      return redirect("/intake");
  }
}

/** Files the claim; a second post, from here or another tab, leads to the one claim. */
export async function file(_before: FormState, _form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const customer = await currentIntakeCustomer();
  if (!customer) redirect("/intake");
  const filed = await fileClaim(customer.actor, await callerAddress());
  if (filed.ok) {
    await keepClaimKey(filed.reference, filed.key);
    // In place of the form: Back then leads to the receipt, never to a second claim.
    revalidatePath("/intake", "layout");
    redirect(`/claim/${filed.reference}`, RedirectType.replace);
  }
  if (filed.reason === "incomplete") redirect(`/intake/${filed.screen}?from=review`);
  return { messages: {}, problem: await inWords(filed.reason) };
}

/** Forgets a filed claim as this browser's intake, so that another can be begun. */
export async function startAnother(): Promise<void> {
  await requireOwnOrigin();
  await dropDraftKey();
  redirect("/intake/who");
}

/** Mails a link that goes on with the draft elsewhere. */
export async function mailDraftLink(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const customer = await currentIntakeCustomer();
  if (!customer || customer.isFiled) redirect("/intake");
  const sent = await sendDraftLink(customer.actor, form, await callerAddress());
  if (sent.ok) return { messages: {}, sent: true };
  return sent.reason === "refused" ? { messages: sent.messages, values: stringsOf(form) } : { messages: {}, values: stringsOf(form), problem: await inWords("too-many-links") };
}

/** Spends a mailed key: this browser goes on with the draft. */
export async function resume(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const resumed = await resumeDraft(z.string().max(200).parse(form.get("key")));
  if (!resumed.ok) return { messages: {}, problem: await inWords("spent-link") };
  await keepDraftKey(resumed.key);
  redirect("/intake");
}

/** What a check found before anything is filed. */
export async function tellDraftCheckHere(finding: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const customer = await currentIntakeCustomer();
  if (!customer || customer.isFiled) redirect("/intake");
  const told = await tellDraftCheck(customer.actor, findingCode.parse(finding), form);
  if (!told.ok && told.reason === "refused") return { messages: told.messages, values: stringsOf(form) };
  if (!told.ok && told.reason === "changed-meanwhile") return { messages: {}, values: stringsOf(form), problem: await inWords("changed-meanwhile") };
  revalidatePath("/intake", "layout");
  redirect("/intake/checks");
}

/** A check has put it right: nothing is filed, and what was typed goes. */
export async function clearDraftHere(finding: string, _before: FormState, _form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const customer = await currentIntakeCustomer();
  if (!customer || customer.isFiled) redirect("/intake");
  const cleared = await clearDraft(customer.actor, findingCode.parse(finding));
  if (!cleared.ok) redirect("/intake");
  await dropDraftKey();
  revalidatePath("/intake", "layout");
  redirect("/intake/cleared");
}

/** Takes a photo off the draft. */
export async function removeDraftPhoto(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const customer = await currentIntakeCustomer();
  if (customer && !customer.isFiled) await removePhoto(customer.actor, z.uuid().parse(form.get("photo")));
  redirect("/intake/pictures");
}
