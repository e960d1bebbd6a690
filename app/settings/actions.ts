"use server";

import { forbidden, redirect } from "next/navigation";
import type { DeskFormState } from "@/app/_desk/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { settingsSchema } from "@/lib/inputs/settings";
import { changeSettings } from "@/lib/operations/change-settings";

export async function changeSettingsHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await requireStaff("/settings");
  const days = form.getAll("workingDays").map(String);
  const input = settingsSchema.safeParse({ ...Object.fromEntries(form), workingDays: days });
  if (!input.success) return { values: { ...stringsOf(form), workingDays: days.join(" ") }, messages: messagesOf(input.error) };
  const changed = await changeSettings(actor, input.data);
  if (!changed.ok) forbidden();
  redirect("/settings?said=changed");
}
