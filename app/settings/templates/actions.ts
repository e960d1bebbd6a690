"use server";

import { forbidden, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { messageTemplateSchema } from "@/lib/inputs/message-template";
import { dropMessageTemplate, keepMessageTemplate } from "@/lib/operations/message-templates";

const HERE = "/settings/templates";
const knownSchema = z.object({ id: z.guid(), version: z.coerce.number().int() });

const PROBLEMS = {
  "not-found": "Somebody has dropped this template meanwhile. What you typed is kept here: copy it into a new one",
  "changed-meanwhile": "Somebody else has changed this template since you opened it. What you typed is kept here; look at theirs in another window",
} as const;

export async function keepTemplate(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = messageTemplateSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const kept = await keepMessageTemplate(actor, knownSchema.safeParse(Object.fromEntries(form)).data ?? null, input.data);
  if (kept.ok) redirect(`${HERE}?said=kept`);
  if (kept.reason === "not-allowed") forbidden();
  if (kept.reason === "name-taken") return { values: stringsOf(form), messages: { name: "There is a template of this name already" } };
  return { values: stringsOf(form), messages: {}, problem: PROBLEMS[kept.reason] };
}

export async function dropTemplate(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const dropped = await dropMessageTemplate(actor, knownSchema.parse(Object.fromEntries(form)));
  if (dropped.ok) redirect(`${HERE}?said=dropped`);
  if (dropped.reason === "not-allowed") forbidden();
  return { values: {}, messages: {}, problem: PROBLEMS[dropped.reason] };
}
