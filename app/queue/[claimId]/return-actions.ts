"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { authorisationSchema } from "@/lib/inputs/returns";
import { authoriseReturn } from "@/lib/operations/authorise-return";
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
  const actor = await requireStaff(`/queue/${claimId}`);
  const input = authorisationSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const authorised = await authoriseReturn(actor, claimId, input.data);
  if (authorised.ok) redirect(donePath(claimId, "unitAsked"));
  if (authorised.reason === "not-allowed") forbidden();
  if (authorised.reason === "not-found") notFound();
  return { values: stringsOf(form), messages: {}, problem: REFUSED[authorised.reason] };
}
