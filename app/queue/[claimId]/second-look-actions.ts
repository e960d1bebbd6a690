"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { stringsOf } from "@/lib/inputs/form";
import { approveVerdict, type SecondLookResult, sendBackVerdict, takeBackVerdict } from "@/lib/operations/second-look";
import { type DoneCode, donePath } from "./done";
import { refusalInWords } from "./refusals";
import { staffOf } from "./staff-of";

const id = z.guid();

export async function approve(claimId: string, proposalId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answered(claimId, form, await approveVerdict(actor, claimId, id.parse(proposalId)), "approved");
}

export async function sendBack(claimId: string, proposalId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answered(claimId, form, await sendBackVerdict(actor, claimId, id.parse(proposalId), { note: String(form.get("note") ?? "") }), "sentBack");
}

export async function takeBackProposed(claimId: string, proposalId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  if (!actor) return signedOut(form);
  return answered(claimId, form, await takeBackVerdict(actor, claimId, id.parse(proposalId)), "verdictTakenBack");
}

function answered(claimId: string, form: FormData, outcome: SecondLookResult, done: DoneCode): DeskFormState {
  if (outcome.ok) redirect(`${donePath(claimId, done)}#verdict`);
  const values = stringsOf(form);
  return outcome.reason === "refused" ? { values, messages: outcome.messages } : { values, messages: {}, problem: refusalInWords(outcome) };
}
