"use server";

import { forbidden, redirect } from "next/navigation";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { settingsSchema } from "@/lib/inputs/settings";
import { changeSettings } from "@/lib/operations/change-settings";

export async function changeSettingsHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const days = form.getAll("workingDays").map(String);
  const input = settingsSchema.safeParse({ ...Object.fromEntries(form), workingDays: days });
  if (!input.success) return { values: { ...stringsOf(form), workingDays: days.join(" ") }, messages: messagesOf(input.error) };
  const changed = await changeSettings(actor, input.data, String(form.get("seen")));
  if (!changed.ok && changed.reason === "not-allowed") forbidden();
  if (!changed.ok) {
    return {
      values: { ...stringsOf(form), workingDays: days.join(" "), seen: changed.seen },
      messages: {},
      problem: "Somebody else has changed the settings since you opened this page. What you typed is kept here; look at theirs in another window, then keep yours",
    };
  }
  redirect("/settings?said=changed");
}
