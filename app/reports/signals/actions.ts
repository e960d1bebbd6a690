"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import { SIGNAL_ACT_NAMES } from "@/lib/domain/reporting/signals-acts";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { signalDecisionSchema } from "@/lib/inputs/signal";
import { decideOnSignal } from "@/lib/operations/decide-on-signal";
import { askToLook } from "@/lib/operations/look-for-signals";
import { signalAddress, signalsAddress } from "../addresses";

export async function askToLookHere(): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff(signalsAddress({}));
  const asked = await askToLook(actor);
  if (!asked.ok) forbidden();
  redirect(signalsAddress({ said: "asked" }));
}

export async function decideHere(signalIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const signalId = z.guid().parse(signalIdGiven);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const values = stringsOf(form);
  const input = signalDecisionSchema.safeParse(values);
  if (!input.success) return { values, messages: messagesOf(input.error) };
  const decided = await decideOnSignal(actor, signalId, input.data);
  if (decided.ok) redirect(`${signalAddress(signalId)}?said=decided`);
  switch (decided.reason) {
    case "not-allowed":
      return forbidden();
    case "not-found":
      return notFound();
    case "unknown-revision":
      return { values, messages: { revision: "There is no such revision of this kit" } };
    case "decided-meanwhile": {
      const { newest } = decided;
      const who = newest ? `${newest.by} has marked it as ${SIGNAL_ACT_NAMES[newest.act]} meanwhile` : "Somebody has marked it meanwhile";
      return { values, messages: {}, problem: `${who}. Nothing of yours was kept: load the page again, then mark it anew if it is needed` };
    }
  }
}
