"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { secondOpinionSchema } from "@/lib/inputs/second-opinion";
import { giveSecondOpinion } from "@/lib/operations/give-second-opinion";
import { donePath } from "../../[claimId]/done";
import { notAskedInWords } from "./refusals";

export async function giveOpinion(claimId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  z.guid().parse(claimId);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = secondOpinionSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const given = await giveSecondOpinion(actor, claimId, input.data);
  if (!given.ok) return { values: stringsOf(form), messages: {}, problem: notAskedInWords(given) };
  redirect(`${donePath(claimId, "opinionGiven")}#verdict`);
}
