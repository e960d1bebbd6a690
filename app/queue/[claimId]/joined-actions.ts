"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { linkClaimSchema, mergeClaimSchema, pairUnitSchema } from "@/lib/inputs/joined-claims";
import { linkClaims, unlinkClaims } from "@/lib/operations/link-claims";
import { mergeClaim, takeApart } from "@/lib/operations/merge-claims";
import { namePairUnit } from "@/lib/operations/name-pair-unit";
import { writeDeskNote } from "@/lib/operations/write-desk-note";
import { type DoneCode, donePath } from "./done";
import { refusalInWords } from "./refusals";
import { staffOf } from "./staff-of";

const identifier = z.guid();

type Outcome = { ok: true } | { ok: false; reason: string; messages?: Readonly<Record<string, string>> };

/** Back to the claim when it is done; else the form with what was typed. */
function answer(claimId: string, form: FormData, outcome: Outcome, done: DoneCode, anchor: string): DeskFormState {
  if (outcome.ok) redirect(donePath(claimId, done) + anchor);
  const values = stringsOf(form);
  return outcome.messages ? { values, messages: outcome.messages } : { values, messages: {}, problem: refusalInWords(outcome) };
}

const refused = (form: FormData, error: z.ZodError): DeskFormState => ({ values: stringsOf(form), messages: messagesOf(error) });
export async function keepNote(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await writeDeskNote(actor, claimId, form), "noted", "#notes");
}

export async function link(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  const input = linkClaimSchema.safeParse(Object.fromEntries(form));
  return input.success ? answer(claimId, form, await linkClaims(actor, claimId, input.data), "linked", "#joined") : refused(form, input.error);
}

export async function unlink(claimId: string, otherId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await unlinkClaims(actor, claimId, identifier.parse(otherId)), "unlinked", "#joined");
}

export async function merge(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  const input = mergeClaimSchema.safeParse(Object.fromEntries(form));
  return input.success ? answer(claimId, form, await mergeClaim(actor, claimId, input.data), "merged", "") : refused(form, input.error);
}

export async function takeOut(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answer(claimId, form, await takeApart(actor, claimId), "takenApart", "");
}

export async function namePair(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  const input = pairUnitSchema.safeParse(Object.fromEntries(form));
  return input.success ? answer(claimId, form, await namePairUnit(actor, claimId, input.data), "pairNamed", "#joined") : refused(form, input.error);
}
