"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { photoMarkSchema } from "@/lib/inputs/photo-mark";
import { markPhoto, removePhotoMark } from "@/lib/operations/mark-photo";
import { refusalInWords } from "../../refusals";

const identifier = z.guid();
const addressOf = (claimId: string, photoId: string) => `/queue/${identifier.parse(claimId)}/look/${identifier.parse(photoId)}`;

export async function putMark(claimId: string, photoId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const address = addressOf(claimId, photoId);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = photoMarkSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const marked = await markPhoto(actor, claimId, photoId, input.data);
  if (!marked.ok) return { values: stringsOf(form), messages: {}, problem: refusalInWords(marked) };
  redirect(`${address}?done=marked`);
}

export async function takeMarkAway(claimId: string, photoId: string, markId: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const address = addressOf(claimId, photoId);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const removed = await removePhotoMark(actor, claimId, identifier.parse(markId));
  if (!removed.ok) return { values: stringsOf(form), messages: {}, problem: refusalInWords(removed) };
  redirect(`${address}?done=unmarked`);
}
