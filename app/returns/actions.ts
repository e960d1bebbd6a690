"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import { z } from "zod";
import type { FormState } from "@/app/_components/form-state";
import type { StaffActor } from "@/lib/access/actors";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { readScanned, scanPath } from "@/lib/domain/claims/scanned-number";
import { handoverSchema, parcelClosingSchema, parcelMatchSchema, receiptSchema, scannedSchema, strayParcelSchema } from "@/lib/inputs/custody";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { correctSerialSeen } from "@/lib/operations/correct-serial-seen";
import { closeParcel, matchParcel } from "@/lib/operations/decide-on-parcel";
import { handOver } from "@/lib/operations/hand-over";
import { receiveReturn } from "@/lib/operations/receive-return";
import { takeInParcel } from "@/lib/operations/take-in-parcel";
import { refusalInWords } from "./refusals";
import type { SaidCode } from "./said";

const person = () => requireStaff("/returns/scan");
const scanOf = (number: string, said?: SaidCode) => `${scanPath(encodeURIComponent(number))}${said ? `&said=${said}` : ""}`;
const refused = (form: FormData, problem: string): FormState => ({ values: stringsOf(form), messages: {}, problem });
const incomplete = (form: FormData, error: z.ZodError): FormState => ({ values: stringsOf(form), messages: messagesOf(error) });
const numberOf = (form: FormData) => z.string().max(40).parse(form.get("number"));

/** What was scanned: a label opens what it is on; a place, with something open, takes that there. */
export async function lookUpScanned(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await person();
  const typed = scannedSchema.parse(form.get("scanned"));
  const read = readScanned(typed);
  if (read?.is !== "place") redirect(typed.trim() === "" ? "/returns/scan" : scanOf(typed.trim()));
  const step = handoverSchema.safeParse({ parcelId: form.get("parcelId"), seen: form.get("seen"), to: read.code });
  if (!step.success) redirect("/returns/scan?said=place-alone");
  return bring(actor, step.data, z.string().max(40).parse(form.get("of") ?? ""));
}

async function bring(actor: StaffActor, step: z.output<typeof handoverSchema>, number: string): Promise<never> {
  const brought = await handOver(actor, step);
  if (!brought.ok && brought.reason === "not-allowed") forbidden();
  redirect(scanOf(number, brought.ok ? "brought" : brought.reason));
}

/** One press: the unit is taken somewhere else. */
export async function handOverHere(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await person();
  const step = handoverSchema.safeParse(Object.fromEntries(form));
  if (!step.success) return incomplete(form, step.error);
  const brought = await handOver(actor, step.data);
  if (brought.ok) redirect(scanOf(numberOf(form), "brought"));
  if (brought.reason === "not-allowed") forbidden();
  // Where it is now stands on its page.
  if (brought.reason === "moved-meanwhile") redirect(scanOf(numberOf(form), brought.reason));
  return refused(form, refusalInWords(brought.reason));
}

/** The unit of a return is here. */
export async function receiveHere(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await person();
  const receipt = receiptSchema.safeParse(Object.fromEntries(form));
  if (!receipt.success) return incomplete(form, receipt.error);
  const received = await receiveReturn(actor, receipt.data);
  if (received.ok) redirect(scanOf(numberOf(form), `received-${received.serial}`));
  if (received.reason === "not-allowed") forbidden();
  // Where it is now stands on its page.
  if (received.reason === "not-expected") redirect(scanOf(numberOf(form), received.reason));
  return refused(form, refusalInWords(received.reason));
}

/** The serial was read wrong. */
export async function correctSerialHere(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await person();
  const receipt = receiptSchema.safeParse(Object.fromEntries(form));
  if (!receipt.success) return incomplete(form, receipt.error);
  const corrected = await correctSerialSeen(actor, receipt.data);
  if (corrected.ok) redirect(scanOf(numberOf(form), `corrected-${corrected.serial}`));
  if (corrected.reason === "not-allowed") forbidden();
  if (corrected.reason === "not-expected") redirect(scanOf(numberOf(form), corrected.reason));
  return refused(form, refusalInWords(corrected.reason));
}

/** Something came that is not the unit of a return. */
export async function takeInParcelHere(_before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await person();
  const parcel = strayParcelSchema.safeParse(Object.fromEntries(form));
  if (!parcel.success) return incomplete(form, parcel.error);
  const taken = await takeInParcel(actor, parcel.data);
  if (taken.ok) redirect(scanOf(taken.number, "taken-in"));
  if (taken.reason === "not-allowed") forbidden();
  return refused(form, refusalInWords(taken.reason));
}

export async function matchParcelHere(parcelIdGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await person();
  const input = parcelMatchSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return incomplete(form, input.error);
  const matched = await matchParcel(actor, z.uuid().parse(parcelIdGiven), input.data);
  if (matched.ok) redirect(scanOf(numberOf(form), "matched"));
  if (matched.reason === "not-allowed") forbidden();
  if (matched.reason === "not-found") notFound();
  return refused(form, refusalInWords(matched.reason));
}

export async function closeParcelHere(parcelIdGiven: string, _before: FormState, form: FormData): Promise<FormState> {
  await requireOwnOrigin();
  const actor = await person();
  const input = parcelClosingSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return incomplete(form, input.error);
  const closed = await closeParcel(actor, z.uuid().parse(parcelIdGiven), input.data);
  if (closed.ok) redirect(scanOf(numberOf(form), "closed"));
  if (closed.reason === "not-allowed") forbidden();
  return refused(form, refusalInWords(closed.reason));
}
