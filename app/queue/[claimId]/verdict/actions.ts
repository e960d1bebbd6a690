"use server";

import { redirect } from "next/navigation";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { verdictFromForm, verdictSchema } from "@/lib/inputs/verdict";
import { confirmVerdict } from "@/lib/operations/confirm-verdict";
import { previewVerdict } from "@/lib/operations/preview-verdict";
import { inZone } from "../../times";
import { donePath } from "../done";
import { refusalInWords } from "../refusals";
import type { VerdictFormState } from "./form-state";
import { staffOf } from "../staff-of";

/** Shows the letter first; the second button confirms it. What was typed stays, whatever stands against it. */
export async function decide(claimId: string, timeZone: string, _before: VerdictFormState, form: FormData): Promise<VerdictFormState> {
  await requireOwnOrigin();
  const actor = await staffOf(claimId);
  const values = stringsOf(form);
  const back: VerdictFormState = { values, contributing: form.getAll("contributingCauses").map(String), letterPhotos: form.getAll("letterPhotos").map(String), messages: {} };
  if (!actor) return { ...back, ...signedOut(form) };
  const parsed = verdictSchema.safeParse(verdictFromForm(form));
  if (!parsed.success) return { ...back, messages: messagesOf(parsed.error) };
  const isConfirmed = values.act === "confirm";
  const outcome = await (isConfirmed ? confirmVerdict(actor, claimId, parsed.data) : previewVerdict(actor, claimId, parsed.data));
  if (outcome.ok) return "letter" in outcome ? { ...back, letter: { text: outcome.letter, fingerprint: outcome.fingerprint, inEnglish: outcome.inEnglish }, grounds: outcome.grounds } : redirect(`${donePath(claimId, "verdictId" in outcome ? "decided" : "proposed")}#verdict`);
  switch (outcome.reason) {
    case "refused":
      return { ...back, messages: outcome.messages };
    case "letter-not-read":
      return { ...back, letter: { text: outcome.letter, fingerprint: outcome.fingerprint }, problem: "What you changed makes another letter than the one you read. Nothing was sent: read it below, then confirm" };
    case "decided-meanwhile":
      return { ...back, problem: `${outcome.by} decided this claim on ${inZone(timeZone).time(outcome.at)}. Nothing of theirs was changed, and what you typed is still here` };
    case "waits-already":
      return { ...back, problem: `A verdict of ${outcome.by} waits for a second person already. What you typed is still here` };
    default:
      return { ...back, problem: refusalInWords(outcome) };
  }
}
