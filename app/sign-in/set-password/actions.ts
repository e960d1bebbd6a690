"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { messagesOf } from "@/lib/inputs/intake";
import { setPassword } from "@/lib/operations/set-password";

export async function setPasswordHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const set = await setPassword(z.string().max(100).parse(form.get("key")), Object.fromEntries(form));
  if (set.ok) redirect("/sign-in?set");
  if (set.reason === "refused") return { values: {}, messages: messagesOf(set) };
  return { values: {}, messages: {}, problem: "This link was used already, or it has run out. Ask an administrator for a new one" };
}
