import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireStaff } from "@/lib/access/staff";
import { dayOfColumn } from "@/lib/domain/warranty/calendar-day";
import { loadEntry } from "@/lib/operations/load-catalogue";
import { keepRevisionHere } from "../../../../actions";
import { EntryForm } from "../../../../entry-form";
import { EntryPage } from "../../../../entry-page";
import { found, idOf } from "../../../../read-id";

export const metadata: Metadata = { title: "Revision" };

export default async function RevisionPage({ params, searchParams }: { params: Promise<{ id: string; revisionId: string }>; searchParams: Promise<{ said?: string }> }) {
  const { id: kitId, revisionId } = await params;
  const [ofKit, id] = [idOf(kitId) ?? notFound(), idOf(revisionId)];
  const actor = await requireStaff(`/catalogue/kits/${ofKit}/revisions/${id ?? "new"}`);
  const { entry: kit } = found(await loadEntry(actor, "kits", ofKit));
  const { entry, seen } = found(await loadEntry(actor, "revisions", id));
  if (!kit || (entry && entry.kitId !== ofKit)) notFound();
  return (
    <EntryPage
      actor={actor}
      heading={entry ? `Revision ${entry.revision} of ${kit.code} ${kit.name}` : `A revision of ${kit.code} ${kit.name} to add`}
      said={(await searchParams).said}
      {...(id && entry ? { removable: { kind: "revisions" as const, id, name: `revision ${entry.revision}` } } : {})}
    >
      <section className="sheet">
        <EntryForm
          action={keepRevisionHere.bind(null, ofKit, id)}
          seen={seen}
          label={entry ? "Keep it so" : "Add it"}
          values={entry ? { revision: entry.revision, introducedOn: dayOfColumn(entry.introducedOn), change: entry.change } : {}}
          fields={[
            { name: "revision", label: "Revision", hint: "The letter or number on the drawing" },
            { name: "introducedOn", label: "Introduced on", type: "date", hint: "A complaint that tells no revision is taken to be of the newest sold by then" },
            { name: "change", label: "What changed", type: "lines", hint: "The reports show it beside what came of it" },
          ]}
        />
      </section>
    </EntryPage>
  );
}
