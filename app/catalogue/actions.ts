"use server";

import { forbidden, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import type { CatalogueEntries, EntryKind } from "@/lib/domain/catalogue/entries";
import { fitterSchema, kitRevisionSchema, kitSchema, sameFitterSchema, supplierSchema, turboModelSchema, vehicleSchema } from "@/lib/inputs/catalogue";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { joinFitters, keepInCatalogue, removeFromCatalogue } from "@/lib/operations/keep-in-catalogue";

const idSchema = z.guid().nullable();
const kindSchema = z.enum(["kits", "revisions", "vehicles", "turbo-models", "fitters", "suppliers"]);

export async function keepTurboModelHere(id: string | null, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  return keep("turbo-models", id, form, turboModelSchema.safeParse(Object.fromEntries(form)), { field: "code", message: "Another turbo model has this code" });
}

export async function keepSupplierHere(id: string | null, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  return keep("suppliers", id, form, supplierSchema.safeParse(Object.fromEntries(form)), { field: "code", message: "Another supplier has this code" });
}

export async function keepVehicleHere(id: string | null, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  return keep("vehicles", id, form, vehicleSchema.safeParse(Object.fromEntries(form)), { field: "yearFrom", message: "There is this vehicle with this first year already" });
}

export async function keepKitHere(id: string | null, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const fits = form.getAll("fits").map(String);
  const state = await keep("kits", id, form, kitSchema.safeParse({ ...Object.fromEntries(form), fits }), { field: "code", message: "Another kit has this code" });
  return { ...state, values: { ...state.values, fits: fits.join(" ") } };
}

export async function keepRevisionHere(kitId: string, id: string | null, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const kit = z.guid().parse(kitId);
  const read = kitRevisionSchema.transform((revision) => ({ kitId: kit, ...revision })).safeParse(Object.fromEntries(form));
  return keep("revisions", id, form, read, { field: "revision", message: "This kit has a revision of this name" }, `/catalogue/kits/${kit}`);
}

export async function keepFitterHere(id: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  return keep("fitters", id, form, fitterSchema.safeParse(Object.fromEntries(form)), { field: "name", message: "Another fitter has this name and place: say below that they are the same" });
}

export async function joinFittersHere(from: string, form: FormData): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/catalogue");
  const { into } = sameFitterSchema.parse(Object.fromEntries(form));
  const joined = await joinFitters(actor, z.guid().parse(from), into);
  if (!joined.ok && joined.reason === "not-allowed") forbidden();
  redirect(joined.ok ? `/catalogue/fitters/${into}?said=joined` : `/catalogue?said=${joined.reason}#fitters`);
}

export async function removeHere(kind: EntryKind, id: string): Promise<void> {
  await requireOwnOrigin();
  const actor = await requireStaff("/catalogue");
  const removed = await removeFromCatalogue(actor, kindSchema.parse(kind), z.guid().parse(id));
  if (!removed.ok && removed.reason === "not-allowed") forbidden();
  redirect(`/catalogue?said=${removed.ok ? "removed" : removed.reason}`);
}

/** Keeps what a form says, or comes back with it and why not; `taken` is what a name that is given already is told as. */
async function keep<Kind extends EntryKind>(
  kind: Kind,
  id: string | null,
  form: FormData,
  read: z.ZodSafeParseResult<CatalogueEntries[Kind]>,
  taken: { field: string; message: string },
  back?: string,
): Promise<DeskFormState> {
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const values = stringsOf(form);
  if (!read.success) return { values, messages: messagesOf(read.error) };
  const kept = await keepInCatalogue(actor, kind, idSchema.parse(id), read.data, String(form.get("seen")));
  if (kept.ok) redirect(`${back ?? `/catalogue/${kind}/${kept.id}`}?said=kept`);
  if (kept.reason === "not-allowed") forbidden();
  if (kept.reason === "taken") return { values, messages: { [taken.field]: taken.message } };
  if (kept.reason === "not-found") return { values, messages: {}, problem: "It, or what you tied it to, has been taken out of the catalogue meanwhile" };
  return { values: { ...values, seen: kept.seen }, messages: {}, problem: "Somebody else has changed this since you opened the page. What you typed is kept here; look at theirs in another window, then keep yours" };
}
