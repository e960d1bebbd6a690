"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { sayReached } from "@/lib/operations/note-bounce";
import { holdLapse, remindNow } from "@/lib/operations/remind-of-checks";
import { donePath, type DoneCode } from "./done";

const identifier = z.guid();

const REFUSED: Readonly<Record<string, string>> = {
  "not-allowed": "This is not for your role.",
  "not-found": "There is no such claim.",
  "no-open-check": "No check is open any more.",
  "no-mail": "There is no e-mail address to write to.",
  "reminded-today": "The customer was reminded today already.",
  "not-legal-here": "The claim does not wait for answers any more.",
  "changed-meanwhile": "Somebody else did so meanwhile. Load the page again.",
};

function answer(claimId: string, outcome: { ok: true } | { ok: false; reason: string }, done: DoneCode): DeskFormState {
  if (outcome.ok) redirect(donePath(claimId, done));
  return { values: {}, messages: {}, problem: REFUSED[outcome.reason] ?? "It was not done." };
}

const staffOf = (claimId: string) => requireStaff(`/queue/${identifier.parse(claimId)}`);

export async function reached(claimId: string): Promise<DeskFormState> {
  await requireOwnOrigin();
  return answer(claimId, await sayReached(await staffOf(claimId), claimId), "reached");
}

export async function remind(claimId: string): Promise<DeskFormState> {
  await requireOwnOrigin();
  return answer(claimId, await remindNow(await staffOf(claimId), claimId), "reminded");
}

export async function hold(claimId: string, isHeld: boolean): Promise<DeskFormState> {
  await requireOwnOrigin();
  return answer(claimId, await holdLapse(await staffOf(claimId), claimId, z.boolean().parse(isHeld)), isHeld ? "held" : "letGo");
}
