"use server";

import { forbidden, redirect } from "next/navigation";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { receiptSchema } from "@/lib/inputs/custody";
import { correctSerialSeen } from "@/lib/operations/correct-serial-seen";
import { receiveReturn } from "@/lib/operations/receive-return";

export async function receiveHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const received = await receiveReturn(await requireStaff("/returns"), receiptOf(form));
  if (!received.ok && received.reason === "not-allowed") forbidden();
  redirect(`/returns?said=${received.ok ? received.serial : received.reason}`);
}

export async function correctSerialHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const corrected = await correctSerialSeen(await requireStaff("/returns"), receiptOf(form));
  if (!corrected.ok && corrected.reason === "not-allowed") forbidden();
  redirect(`/returns?said=${corrected.ok ? `corrected-${corrected.serial}` : corrected.reason}`);
}

function receiptOf(form: FormData) {
  const input = receiptSchema.safeParse(Object.fromEntries(form));
  return input.success ? input.data : redirect("/returns?said=serial-too-long");
}
