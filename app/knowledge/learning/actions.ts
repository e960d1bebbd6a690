"use server";

import { forbidden, redirect } from "next/navigation";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { askToLearn } from "@/lib/operations/learn-edition";

export async function askToLearnHere(): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/knowledge/learning");
  const asked = await askToLearn(actor);
  if (!asked.ok && asked.reason === "not-allowed") forbidden();
  redirect("/knowledge/learning");
}
