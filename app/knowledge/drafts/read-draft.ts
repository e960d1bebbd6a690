import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { requireStaff } from "@/lib/access/staff";
import { leavesOf } from "@/lib/domain/diagnosis/edition-leaves";
import { loadEditionDraft } from "@/lib/operations/edition-drafts";

/** The draft an address names, for the person whose it is, with what its forms are filled in from. */
export async function readDraftAt(draftId: string) {
  if (!z.uuid().safeParse(draftId).success) notFound();
  const actor = await requireStaff(`/knowledge/drafts/${draftId}`);
  const work = await loadEditionDraft(actor, draftId);
  if (!work.ok) return work.reason === "not-allowed" ? forbidden() : notFound();
  return { actor, work, fields: { leaves: leavesOf(work.basis), typed: work.draft.typed, issues: work.issues } };
}

export type DraftAt = Awaited<ReturnType<typeof readDraftAt>>;

/** What is said above a form that was kept. */
export const SAID: Readonly<Record<string, string>> = {
  kept: "Kept.",
  "too-much": "One of the fields is longer than 2,000 characters: nothing of this form was kept.",
  refused: "It cannot be proposed as it is: what needs another look is listed below.",
  "nothing-changed": "It states what the edition in force states: there is nothing to propose.",
  "unknown-basis": "The edition it was made from is not there any more.",
};
