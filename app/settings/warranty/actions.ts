"use server";

import { forbidden, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { dayInWords } from "@/lib/domain/warranty/calendar-day";
import { stringsOf } from "@/lib/inputs/form";
import { termsFormSchema, termsFromForm } from "@/lib/inputs/warranty";
import { draftTerms, dropTermsDraft, keepTermsDraft, putDraftInForce } from "@/lib/operations/warranty-terms";

export interface TermsFormState extends DeskFormState {
  /** Ticked, as sent; null until the form was sent once. */
  lostBy: readonly string[] | null;
}

const CHANGED = "Somebody else has changed this draft, put it in force or thrown it away since you opened it. What you typed is kept here; look at theirs in another window";
const seenSchema = z.object({ number: z.coerce.number().int().positive(), seen: z.coerce.date() });

export async function beginDraft(): Promise<void> {
  await requireOwnOrigin();
  const begun = await draftTerms(await requireStaff("/settings/warranty"));
  if (!begun.ok) forbidden();
  redirect("/settings/warranty/draft");
}

/** Keeps the draft; with the other buttons it is then put in force, or thrown away. */
export async function changeDraft(_before: TermsFormState, form: FormData): Promise<TermsFormState> {
  await requireOwnOrigin();
  const actor = await requireStaff("/settings/warranty/draft");
  const { number, seen } = seenSchema.parse(Object.fromEntries(form));
  const back: TermsFormState = { values: stringsOf(form), lostBy: form.getAll("lostBy").map(String), messages: {} };
  if (form.get("act") === "drop") {
    const dropped = await dropTermsDraft(actor, number);
    if (dropped.ok) redirect("/settings/warranty?said=dropped");
    return dropped.reason === "not-allowed" ? forbidden() : { ...back, problem: CHANGED };
  }
  const input = termsFormSchema.safeParse(termsFromForm(form));
  if (!input.success) {
    const fields = input.error.issues.map(({ path: [part, row, name], message }) => [row === undefined || name === undefined ? String(part) : `${part === "kits" ? "kit" : "country"}-${String(row)}-${String(name)}`, message] as const);
    return { ...back, messages: Object.fromEntries(fields.reverse()) };
  }
  const kept = await keepTermsDraft(actor, number, seen, input.data);
  if (!kept.ok && kept.reason === "not-allowed") forbidden();
  if (!kept.ok) return kept.reason === "unknown-kit" ? { ...back, messages: { kits: `There is no kit ${kept.kit}` } } : { ...back, problem: CHANGED };
  if (form.get("act") !== "in-force") redirect("/settings/warranty/draft?said=kept");
  const put = await putDraftInForce(actor, number, kept.seen);
  if (put.ok) redirect("/settings/warranty?said=in-force");
  if (put.reason === "not-allowed") forbidden();
  const keptNow = { ...back, values: { ...back.values, seen: kept.seen.toISOString() } };
  return put.reason === "begins-too-early"
    ? { ...keptNow, messages: { validFrom: `Units have shipped under the terms before: these begin on ${dayInWords(put.earliest)} at the earliest` } }
    : { ...keptNow, problem: CHANGED };
}
