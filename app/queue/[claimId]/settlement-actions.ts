"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { depositEndSchema, reversalSchema } from "@/lib/inputs/settlement";
import { bookSettlement } from "@/lib/operations/book-settlement";
import { endDeposit } from "@/lib/operations/end-deposit";
import { reverseSettlement } from "@/lib/operations/reverse-settlement";
import { settleClaim } from "@/lib/operations/settle-claim";
import { donePath } from "./done";
import { staffOf } from "./staff-of";

const NOT_DONE = {
  "not-legal-here": "Only a decided claim is settled. Load the page again",
  "changed-meanwhile": "Somebody else has changed this claim meanwhile. Load the page again",
  "booked-already": "This is booked already. Reverse that booking first if it is wrong",
  "takes-a-second-person": "With this we bear more than one person decides alone, and you gave the verdict. Somebody else books it",
  "promise-open": "Something that was promised is not booked. Load the page again",
  "ended-already": "This deposit was given back or kept already. Load the page again",
  "reversed-already": "This booking is reversed already. Load the page again",
  "is-a-reversal": "A reversal is not reversed. Book the amount again instead",
  "deposit-ended": "The deposit was given back or kept. Reverse that booking first",
} as const;

type Outcome = { ok: true; settled?: boolean } | { ok: false; reason: keyof typeof NOT_DONE | "not-allowed" | "not-found" } | { ok: false; reason: "refused"; issues: Parameters<typeof messagesOf>[0]["issues"] };

export async function bookSettlementHere(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answered(claimId, form, await bookSettlement(actor, claimId, Object.fromEntries(form)), "booked");
}

export async function settleHere(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answered(claimId, form, await settleClaim(actor, claimId, { version: Number(form.get("version")) }), "settled");
}

export async function endDepositHere(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  const input = depositEndSchema.safeParse(Object.fromEntries(form));
  return input.success ? answered(claimId, form, await endDeposit(actor, claimId, input.data), "booked") : { values: stringsOf(form), messages: messagesOf(input.error) };
}

export async function reverseSettlementHere(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  const input = reversalSchema.safeParse(Object.fromEntries(form));
  return input.success ? answered(claimId, form, await reverseSettlement(actor, claimId, input.data), "reversed") : { values: stringsOf(form), messages: messagesOf(input.error) };
}

/** Leads back to the claim, or fills the form in again. */
function answered(claimId: string, form: FormData, outcome: Outcome, done: "booked" | "settled" | "reversed"): DeskFormState {
  if (outcome.ok) redirect(donePath(claimId, outcome.settled ? "settled" : done));
  if (outcome.reason === "not-allowed") forbidden();
  if (outcome.reason === "not-found") notFound();
  if (outcome.reason === "refused") return { values: stringsOf(form), messages: messagesOf(outcome) };
  return { values: stringsOf(form), messages: {}, problem: NOT_DONE[outcome.reason] };
}
