"use client";

import { useActionState } from "react";
import { UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { ROLE_NAMES, ROLES } from "@/lib/domain/claims/roles";
import { inviteHere } from "./actions";

export function InviteForm() {
  const [{ values, messages, problem }, send, isSending] = useActionState(inviteHere, UNTOUCHED);
  return (
    <form action={send} noValidate>
      <Problem sentence={problem} />
      <Field id="name" label="Name" error={messages.name}>
        <input {...describedBy("name", { error: messages.name })} name="name" autoComplete="off" required defaultValue={values.name} key={values.name} />
      </Field>
      <Field id="email" label="E-mail address" error={messages.email}>
        <input {...describedBy("email", { error: messages.email })} name="email" type="email" autoComplete="off" required defaultValue={values.email} key={values.email} />
      </Field>
      <Field id="role" label="Role" error={messages.role}>
        <select {...describedBy("role", { error: messages.role })} name="role" defaultValue={values.role ?? "support"} key={values.role}>
          {ROLES.map((role) => (
            <option key={role} value={role}>
              {ROLE_NAMES[role]}
            </option>
          ))}
        </select>
      </Field>
      <p className="small soft">They get a link by mail, to choose a password within 72 hours.</p>
      <button type="submit" className="button tight" disabled={isSending}>
        Invite
      </button>
    </form>
  );
}
