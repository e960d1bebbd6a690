"use server";

import { forbidden, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import { placeSchema } from "@/lib/inputs/custody";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { addPlace, retirePlace } from "@/lib/operations/change-places";
import { refusalInWords } from "../refusals";

export async function addPlaceHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const place = placeSchema.safeParse(Object.fromEntries(form));
  if (!place.success) return { values: stringsOf(form), messages: messagesOf(place.error) };
  const added = await addPlace(actor, place.data);
  if (added.ok) redirect("/returns/places");
  if (added.reason === "not-allowed") forbidden();
  return { values: stringsOf(form), messages: { code: refusalInWords(added.reason) } };
}

export async function retirePlaceHere(codeGiven: string, isRetired: boolean, _before: DeskFormState, _form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await requireStaff("/returns/places");
  const retired = await retirePlace(actor, z.string().max(60).parse(codeGiven), z.boolean().parse(isRetired));
  if (retired.ok) redirect("/returns/places");
  if (retired.reason === "not-allowed") forbidden();
  return { values: {}, messages: {}, problem: refusalInWords(retired.reason) };
}
