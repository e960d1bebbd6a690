"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { LONGEST } from "@/lib/domain/intake/fields";
import { stringsOf } from "@/lib/inputs/form";
import { lineSchema } from "@/lib/inputs/text";
import { fileCall, saveCall, startCall } from "@/lib/operations/take-down-call";

const identifier = z.guid();
const REFUSED: Readonly<Record<string, string>> = {
  "not-allowed": "This is not for your role.",
  "no-such-purchase": "No order and no unit has this number. Check it with the caller, or leave it empty and go on.",
  "not-found": "There is no such call.",
  "already-filed": "This call has been filed.",
  "changed-meanwhile": "Somebody else has changed this call meanwhile. Load the page again.",
  incomplete: "Something is still worth asking. It is on the page now.",
};

export async function beginCall(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const values = stringsOf(form);
  const number = lineSchema(LONGEST.code).safeParse(values.number ?? "");
  const started = await startCall(actor, { number: number.data ?? "", language: z.enum(LANGUAGES).catch("en").parse(values.language), filingKey: identifier.parse(values.filingKey) });
  if (started.ok) redirect(`/queue/new/${started.claimId}`);
  return { values, messages: {}, problem: REFUSED[started.reason] ?? "It was not begun." };
}

/** Keeps the page, and files it when the button for that was pressed. */
export async function keepCall(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  identifier.parse(claimId);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const values = stringsOf(form);
  const files = values.then === "file";
  const kept = files ? await fileCall(actor, claimId, values) : await saveCall(actor, claimId, values, false);
  if (kept.ok) redirect(files ? `/queue/${claimId}?done=filedForCaller` : `/queue/new/${claimId}`);
  if (kept.reason === "refused") return { values, messages: kept.messages };
  // What was typed is kept, and the page that shows it asks for more now.
  if (kept.reason === "incomplete") revalidatePath(`/queue/new/${claimId}`);
  return { values: kept.reason === "incomplete" ? {} : values, messages: {}, problem: REFUSED[kept.reason] ?? "It was not kept." };
}
