"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { reversalSchema } from "@/lib/inputs/settlement";
import { bookSettlement } from "@/lib/operations/book-settlement";
import { reverseSettlement } from "@/lib/operations/reverse-settlement";
import { donePath } from "./done";

const NOT_BOOKED = {
  "not-legal-here": "Only a decided claim is settled. Load the page again",
  "changed-meanwhile": "Somebody else has changed this claim meanwhile. Load the page again",
  "booked-already": "This is booked already. Reverse that booking first if it is wrong",
  "nothing-to-do": "Write an amount, or settle the claim without one",
} as const;

const NOT_REVERSED = {
  "reversed-already": "This booking is reversed already. Load the page again",
  "is-a-reversal": "A reversal is not reversed. Book the amount again instead",
} as const;

export async function bookSettlementHere(claimIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const actor = await requireStaff(`/queue/${claimId}`);
  const booked = await bookSettlement(actor, claimId, Object.fromEntries(form));
  if (booked.ok) redirect(donePath(claimId, booked.settled ? "settled" : "booked"));
  if (booked.reason === "not-allowed") forbidden();
  if (booked.reason === "not-found") notFound();
  if (booked.reason === "refused") return { values: stringsOf(form), messages: messagesOf(booked) };
  if (booked.reason === "amount-missing") return { values: stringsOf(form), messages: { amount: "Write the amount: a refund or goodwill without one pays nothing" } };
  return { values: stringsOf(form), messages: {}, problem: NOT_BOOKED[booked.reason] };
}

export async function reverseSettlementHere(claimIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const actor = await requireStaff(`/queue/${claimId}`);
  const input = reversalSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const reversed = await reverseSettlement(actor, claimId, input.data);
  if (reversed.ok) redirect(donePath(claimId, "reversed"));
  if (reversed.reason === "not-allowed") forbidden();
  if (reversed.reason === "not-found") notFound();
  return { values: stringsOf(form), messages: {}, problem: NOT_REVERSED[reversed.reason] };
}
