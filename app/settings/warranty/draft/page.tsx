import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, redirect } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { LAW_COMES_FIRST } from "@/lib/domain/warranty/outcome";
import { loadWarrantyTerms } from "@/lib/operations/warranty-terms";
import { DraftForm } from "./draft-form";

export const metadata: Metadata = { title: "Draft of warranty terms" };

/** The next version of the terms, to write and to put in force. */
export default async function TermsDraftPage({ searchParams }: { searchParams: Promise<{ said?: string }> }) {
  const actor = await requireStaff("/settings/warranty/draft");
  const loaded = await loadWarrantyTerms(actor);
  if (!loaded.ok || !loaded.mayChange) forbidden();
  const { draft, kits } = loaded;
  if (!draft) redirect("/settings/warranty");
  return (
    <DeskShell actor={actor} here="Settings">
      <p className="small letter no-print">
        <Link href="/settings/warranty">Warranty terms</Link> / draft of {draft.number}
      </p>
      <h1>Terms {draft.number} are a draft: no unit has them yet</h1>
      {(await searchParams).said === "kept" ? (
        <p className="note" role="status">
          <strong>The draft is kept.</strong>
        </p>
      ) : null}
      <p className="note">{LAW_COMES_FIRST}</p>
      <DraftForm key={draft.updatedAt.getTime()} draft={{ number: draft.number, seen: draft.updatedAt.toISOString(), validFrom: draft.validFrom, change: draft.change, document: draft.document }} kits={kits} />
    </DeskShell>
  );
}
