"use server";

import { forbidden, redirect } from "next/navigation";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { receiptSchema } from "@/lib/inputs/returns";
import { receiveReturn } from "@/lib/operations/receive-return";

export async function receiveHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/returns");
  const input = receiptSchema.safeParse(Object.fromEntries(form));
  if (!input.success) redirect("/returns?said=serial-too-long");
  const received = await receiveReturn(actor, input.data);
  if (!received.ok && received.reason === "not-allowed") forbidden();
  redirect(`/returns?said=${received.ok ? received.serial : received.reason}`);
}
