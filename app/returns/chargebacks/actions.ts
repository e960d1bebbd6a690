"use server";

import { forbidden, redirect } from "next/navigation";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import { answersSchema, beginSchema, chargebackActSchema, sendSchema, takeOutSchema } from "@/lib/inputs/chargeback";
import { stringsOf } from "@/lib/inputs/form";
import { beginChargeback } from "@/lib/operations/begin-chargeback";
import { bookSupplierAnswers, type ChargebackChange, closeChargeback, dropChargeback, sendChargeback, takeOutLine } from "@/lib/operations/change-chargeback";
import { problemInWords } from "./chargeback-words";

const ROOM = "/returns/chargebacks";

export async function beginHere(supplierId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const parsed = beginSchema.safeParse({ supplierId, verdicts: form.getAll("verdict"), batches: form.getAll("batch") });
  if (!parsed.success) return { values: {}, messages: {}, problem: "Tick what is to be charged back" };
  const begun = await beginChargeback(actor, parsed.data);
  if (begun.ok) redirect(`${ROOM}/${begun.number}`);
  if (begun.reason === "not-allowed") forbidden();
  return { values: {}, messages: {}, problem: begun.reason === "charged-meanwhile" ? "Somebody charged one of them meanwhile. Load the page anew" : "None of these can be charged to this supplier any more" };
}

/** Where a change of a chargeback leads, or what is wrong with it. */
function outcome(number: number, changed: ChargebackChange, form: FormData): DeskFormState {
  if (changed.ok) redirect(`${ROOM}/${number}`);
  if (changed.reason === "not-allowed") forbidden();
  if (changed.reason === "more-than-asked") return { values: stringsOf(form), messages: Object.fromEntries(changed.lineIds.map((id) => [`amount-${id}`, "More than is asked"])) };
  return { values: stringsOf(form), messages: {}, problem: problemInWords(changed.reason) };
}

export async function takeOutHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff(ROOM);
  const on = takeOutSchema.parse(stringsOf(form));
  const changed = await takeOutLine(actor, on);
  if (!changed.ok && changed.reason === "not-allowed") forbidden();
  redirect(`${ROOM}/${on.number}${changed.ok ? "" : `?problem=${changed.reason}`}`);
}

export async function dropHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff(ROOM);
  const on = chargebackActSchema.parse(stringsOf(form));
  const changed = await dropChargeback(actor, on);
  if (changed.ok) redirect(ROOM);
  if (changed.reason === "not-allowed") forbidden();
  redirect(`${ROOM}/${on.number}?problem=${changed.reason}`);
}

export async function closeHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff(ROOM);
  const on = chargebackActSchema.parse(stringsOf(form));
  const changed = await closeChargeback(actor, on);
  if (!changed.ok && changed.reason === "not-allowed") forbidden();
  redirect(`${ROOM}/${on.number}${changed.ok ? "" : `?problem=${changed.reason}`}`);
}

export async function sendHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const parsed = sendSchema.safeParse(stringsOf(form));
  if (!parsed.success) return { values: stringsOf(form), messages: Object.fromEntries(parsed.error.issues.map(({ path, message }) => [String(path[0]), message])) };
  return outcome(parsed.data.number, await sendChargeback(actor, parsed.data), form);
}

export async function answerHere(currency: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const typed = stringsOf(form);
  const amounts = Object.fromEntries(Object.entries(typed).flatMap(([name, value]) => (name.startsWith("amount-") ? [[name.slice("amount-".length), value]] : [])));
  const parsed = answersSchema(currency).safeParse({ ...typed, amounts });
  if (!parsed.success) return { values: typed, messages: Object.fromEntries(parsed.error.issues.map(({ path, message }) => [path[0] === "amounts" ? `amount-${String(path[1])}` : String(path[0]), message])) };
  return outcome(parsed.data.number, await bookSupplierAnswers(actor, parsed.data), form);
}
