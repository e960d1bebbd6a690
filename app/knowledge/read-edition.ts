import { forbidden, notFound } from "next/navigation";
import { requireStaff } from "@/lib/access/staff";
import { loadKnowledge } from "@/lib/operations/load-knowledge";

/** The edition an address names, for whoever may read it. */
export async function readEditionAt(given: string, path = "") {
  if (!/^[1-9]\d{0,5}$/.test(given)) notFound();
  const actor = await requireStaff(`/knowledge/${given}${path}`);
  const shown = await loadKnowledge(actor, Number(given));
  if (!shown.ok) return shown.reason === "not-allowed" ? forbidden() : notFound();
  return { actor, shown };
}
