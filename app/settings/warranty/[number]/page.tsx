import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { dayInWords } from "@/lib/domain/warranty/calendar-day";
import { loadWarrantyTerms } from "@/lib/operations/warranty-terms";
import { TermsSheet } from "../terms-sheet";

export const metadata: Metadata = { title: "Warranty terms" };

/** One version of the terms that was put in force. */
export default async function TermsPage({ params }: { params: Promise<{ number: string }> }) {
  const { number } = await params;
  const actor = await requireStaff(`/settings/warranty/${encodeURIComponent(number)}`);
  const loaded = await loadWarrantyTerms(actor);
  if (!loaded.ok) forbidden();
  const place = loaded.inForce.findIndex((one) => String(one.number) === number);
  const terms = loaded.inForce[place];
  if (!terms) notFound();
  const next = loaded.inForce[place - 1];
  return (
    <DeskShell actor={actor} here="Settings">
      <p className="small letter no-print">
        <Link href="/settings/warranty">Warranty terms</Link> / {terms.number}
      </p>
      <h1>{`Terms ${terms.number}: units shipped from ${dayInWords(terms.validFrom)}${next ? ` until ${dayInWords(next.validFrom)}` : " on"}`}</h1>
      <p className="soft">
        {terms.change} Put in force by {terms.putInForceBy}; it never changes.
      </p>
      <section className="sheet">
        <TermsSheet document={terms.document} kitNames={new Map(loaded.kits.map(({ code, name }) => [code, name]))} />
      </section>
    </DeskShell>
  );
}
