"use server";

import { redirect } from "next/navigation";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { handOverSchema, severalSchema } from "@/lib/inputs/several-claims";
import { actOnSeveral } from "@/lib/operations/act-on-several";

/** Does what was shown, and leads to what came of it: the reasons of those passed over go along in the address. */
export async function doSeveral(view: string, form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/queue");
  const { act, claim } = severalSchema.parse({ act: form.get("act"), claim: form.getAll("claim") });
  const { to, note } = handOverSchema.parse({ to: form.get("to") ?? "", note: form.get("note") ?? "" });
  const done = await actOnSeveral(actor, act, claim, { to: to || null, note });
  if (!done.ok) redirect("/queue");
  const address = new URLSearchParams({ act, view, done: String(done.rows.filter(({ notDone }) => notDone === null).length) });
  for (const { id, notDone } of done.rows) if (notDone) address.append("not", `${id} ${notDone}`);
  redirect(`/queue/several?${address}`);
}
