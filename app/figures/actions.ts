"use server";

import { forbidden, notFound, redirect } from "next/navigation";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import type { ImportKind } from "@/lib/domain/imports/kinds";
import { stringsOf } from "@/lib/inputs/form";
import { importIdSchema, importKindSchema, importReadingSchema } from "@/lib/inputs/import";
import { messagesOf } from "@/lib/inputs/intake";
import { changeReading, startImport, takeBackImport } from "@/lib/operations/start-import";

/** Shows the first rows again as the form says, or brings the file in so. */
export async function readFileHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const { id, kind } = whichFile(form);
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const input = importReadingSchema(kind).safeParse(Object.fromEntries(form));
  if (!input.success) return { values: stringsOf(form), messages: messagesOf(input.error) };
  const isStart = form.get("intent") === "start";
  const result = await (isStart ? startImport : changeReading)(actor, id, input.data);
  if (result.ok) redirect(`/figures/${id}${isStart ? "" : "#first-rows"}`);
  switch (result.reason) {
    case "not-allowed":
      return forbidden();
    case "not-found":
      return notFound();
    case "fields-missing":
      return { values: stringsOf(form), messages: Object.fromEntries(result.fields.map((field) => [`column-${field}`, "Say which column tells it"])) };
    case "no-rows":
      return { values: stringsOf(form), messages: {}, problem: "There is no row below the headings. Send a file that has some" };
    case "not-waiting":
      return redirect(`/figures/${id}`);
    case "file-gone":
      return { values: stringsOf(form), messages: {}, problem: "The file is no longer kept. Send it again" };
  }
}

export async function takeBackHere(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const id = importIdSchema.parse(form.get("file"));
  const actor = await requireStaff(`/figures/${id}`);
  const taken = await takeBackImport(actor, id);
  if (!taken.ok && taken.reason === "not-allowed") forbidden();
  if (!taken.ok && taken.reason === "not-found") notFound();
  redirect(`/figures/${id}`);
}

function whichFile(form: FormData): { id: string; kind: ImportKind } {
  return { id: importIdSchema.parse(form.get("file")), kind: importKindSchema.parse(form.get("kind")) };
}
