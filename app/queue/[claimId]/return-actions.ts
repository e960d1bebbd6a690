"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { refusalInWords } from "@/app/returns/refusals";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { serialDecisionSchema } from "@/lib/inputs/custody";
import { messagesOf } from "@/lib/inputs/intake";
import { authorisationSchema, prolongSchema } from "@/lib/inputs/returns";
import { authoriseReturn } from "@/lib/operations/authorise-return";
import { giveUpReturn } from "@/lib/operations/end-return";
import { prolongReturn } from "@/lib/operations/prolong-return";
import { setUnitAside, takeForSameUnit } from "@/lib/operations/settle-serial";
import { recordCarriage } from "@/lib/operations/tell-carriage";
import { donePath } from "./done";

const REFUSED = {
  "no-address": "The customer has no e-mail address to write to",
  "unit-is-here": "The unit is here already. Load the page again",
  "changed-meanwhile": "Somebody else has changed this claim meanwhile. Load the page again",
  "not-legal-here": "A return cannot be authorised at this stage of the claim. Load the page again",
} as const;

export async function authoriseReturnHere(claimIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = authorisationSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const authorised = await authoriseReturn(actor, claimId, input.data);
  if (authorised.ok) redirect(donePath(claimId, "unitAsked"));
  if (authorised.reason === "not-allowed") forbidden();
  if (authorised.reason === "not-found") notFound();
  return { values: stringsOf(form), messages: {}, problem: REFUSED[authorised.reason] };
}

/** Told over the telephone: who carries the parcel. */
export async function recordCarriageHere(claimIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const told = await recordCarriage(actor, claimId, form);
  if (told.ok) redirect(donePath(claimId, "unitSetOut"));
  if (told.reason === "not-allowed") forbidden();
  return told.reason === "refused" ? { values: stringsOf(form), messages: told.messages } : { values: stringsOf(form), messages: {}, problem: refusalInWords(told.reason) };
}

export async function prolongReturnHere(claimIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = prolongSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const prolonged = await prolongReturn(actor, claimId, input.data);
  if (prolonged.ok) redirect(donePath(claimId, "returnProlonged"));
  if (prolonged.reason === "not-allowed") forbidden();
  return { values: stringsOf(form), messages: {}, problem: refusalInWords(prolonged.reason) };
}

export async function giveUpReturnHere(claimIdGiven: string, returnIdGiven: string, _before: DeskFormState, _form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const ended = await giveUpReturn(await requireStaff(`/queue/${claimId}`), claimId, z.uuid().parse(returnIdGiven));
  if (ended.ok) redirect(donePath(claimId, "returnEnded"));
  if (ended.reason === "not-allowed") forbidden();
  return { values: {}, messages: {}, problem: refusalInWords(ended.reason) };
}

/** Whether the unit that came under another serial is the one of the claim: one form, a button for each answer. */
export async function settleSerialHere(claimIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = serialDecisionSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const isSame = form.get("answer") === "same";
  const settled = await (isSame ? takeForSameUnit : setUnitAside)(actor, input.data);
  if (settled.ok) redirect(donePath(claimId, isSame ? "sameUnit" : "unitSetAside"));
  if (settled.reason === "not-allowed") forbidden();
  return { values: stringsOf(form), messages: {}, problem: refusalInWords(settled.reason) };
}
