"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import type { FormState } from "@/app/_components/form-state";
import { requireCustomer } from "@/lib/access/customer";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { stringsOf } from "@/lib/inputs/form";
import { wordsIn } from "@/lib/messages/words";
import { keepLabelSender } from "@/lib/operations/return-label";
import { tellCarriage } from "@/lib/operations/tell-carriage";

const reference = z.string().max(40);

export async function makeMyLabel(referenceGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const kept = await keepLabelSender(actor, form);
  if (kept.ok) redirect(`/claim/${actor.reference}/label`);
  return kept.reason === "refused" ? { messages: kept.messages, values: stringsOf(form) } : { messages: {}, values: stringsOf(form), problem: wordsIn(actor.language)("sendIn.way.gone") };
}

export async function tellMyCarriage(referenceGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await requireCustomer(reference.parse(referenceGiven));
  const told = await tellCarriage(actor, form);
  if (told.ok) {
    // The same address but for the part to look at: the browser would show what it has.
    revalidatePath(`/claim/${actor.reference}`);
    redirect(`/claim/${actor.reference}#send-in`);
  }
  return told.reason === "refused" ? { messages: told.messages, values: stringsOf(form) } : { messages: {}, values: stringsOf(form), problem: wordsIn(actor.language)("sendIn.way.gone") };
}
