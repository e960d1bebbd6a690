"use server";

import { forbidden, redirect } from "next/navigation";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { invitationSchema, personSchema, roleChangeSchema } from "@/lib/inputs/people";
import { changeRole } from "@/lib/operations/change-role";
import { disablePerson } from "@/lib/operations/disable-person";
import { enablePerson } from "@/lib/operations/enable-person";
import { invitePerson } from "@/lib/operations/invite-person";
import { sendPasswordLink } from "@/lib/operations/send-password-link";
import type { Outcome } from "./outcomes";

export async function inviteHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = invitationSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const invited = await invitePerson(actor, input.data);
  if (!invited.ok && invited.reason === "not-allowed") forbidden();
  if (!invited.ok) return { values: stringsOf(form), messages: { email: "Somebody has this address already" } };
  return say("invited");
}

export async function changeRoleHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/people");
  const { personId, role } = roleChangeSchema.parse(Object.fromEntries(form));
  const changed = await changeRole(actor, personId, role);
  if (!changed.ok && changed.reason === "not-allowed") forbidden();
  say(changed.ok ? "role-changed" : changed.reason);
}

export async function disableHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/people");
  const disabled = await disablePerson(actor, personSchema.parse(Object.fromEntries(form)).personId);
  if (!disabled.ok && disabled.reason === "not-allowed") forbidden();
  say(disabled.ok ? "disabled" : disabled.reason, disabled.ok ? disabled.released : 0);
}

export async function enableHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/people");
  const enabled = await enablePerson(actor, personSchema.parse(Object.fromEntries(form)).personId);
  if (!enabled.ok && enabled.reason === "not-allowed") forbidden();
  say(enabled.ok ? "enabled" : enabled.reason);
}

export async function sendLinkHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/people");
  const sent = await sendPasswordLink(actor, personSchema.parse(Object.fromEntries(form)).personId);
  if (!sent.ok && sent.reason === "not-allowed") forbidden();
  say(sent.ok ? "link-sent" : sent.reason === "disabled" ? "is-disabled" : sent.reason);
}

function say(outcome: Outcome, released = 0): never {
  redirect(`/people?said=${outcome}${released > 0 ? `&released=${released}` : ""}`);
}
