"use server";

import { redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { signedOut } from "@/app/_desk/signed-out";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff, requireStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { queueAddress, readQueueFilter } from "@/lib/inputs/queue-filter";
import { keepFilter, removeFilter, startWithFilter } from "@/lib/operations/saved-filters";

const identifier = z.guid();
const REFUSED = { "not-allowed": "This is not for your role.", "too-many": "Twelve views are kept already. Remove one first." } as const;

export async function keepView(query: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const actor = await currentStaff();
  if (!actor) return signedOut(form);
  const values = stringsOf(form);
  const kept = await keepFilter(actor, { name: values.name ?? "", query });
  if (kept.ok) redirect(kept.address);
  return kept.reason === "refused" ? { values, messages: kept.messages } : { values, messages: {}, problem: REFUSED[kept.reason] };
}

export async function removeView(id: string, back: string): Promise<void> {
  await requireOwnOrigin();
  await removeFilter(await requireStaff("/queue"), identifier.parse(id));
  redirect(sameView(back));
}

export async function startWithView(id: string | null, back: string): Promise<void> {
  await requireOwnOrigin();
  await startWithFilter(await requireStaff("/queue"), id === null ? null : identifier.parse(id));
  redirect(sameView(back));
}

/** A view as an address of ours, whatever was sent. */
const sameView = (query: string) => queueAddress(readQueueFilter(Object.fromEntries(new URLSearchParams(query))));
