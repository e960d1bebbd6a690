import type { Metadata } from "next";
import { requireStaff } from "@/lib/access/staff";
import { BEARING_NAMES, STAGING_NAMES } from "@/lib/domain/catalogue/entries";
import { loadTurboModel } from "@/lib/operations/load-catalogue";
import { keepTurboModelHere } from "../../actions";
import { EntryForm } from "../../entry-form";
import { EntryPage } from "../../entry-page";
import { makerOptions } from "../../maker-options";
import { found, idOf } from "../../read-id";

export const metadata: Metadata = { title: "Turbo model" };

export default async function TurboModelPage({ params, searchParams }: { params: Promise<{ id: string }>; searchParams: Promise<{ said?: string }> }) {
  const id = idOf((await params).id);
  const actor = await requireStaff(`/catalogue/turbo-models/${id ?? "new"}`);
  const { entry, seen, suppliers } = found(await loadTurboModel(actor, id));
  return (
    <EntryPage
      actor={actor}
      heading={entry ? `${entry.code} may have ${entry.axialPlayMinMm} to ${entry.axialPlayMaxMm} mm of axial play` : "A turbo model to add"}
      said={(await searchParams).said}
      {...(id && entry ? { removable: { kind: "turbo-models" as const, id, name: entry.code } } : {})}
    >
      <section className="sheet">
        <EntryForm
          action={keepTurboModelHere.bind(null, id)}
          seen={seen}
          label={entry ? "Keep it so" : "Add it"}
          values={entry ? Object.fromEntries(Object.entries(entry).map(([name, value]) => [name, String(value ?? "")])) : {}}
          fields={[
            { name: "code", label: "Code", hint: "As shipments name it" },
            { name: "name", label: "Name" },
            { name: "supplierId", label: "Who makes it", hint: "A defective unit is charged back to them", options: makerOptions(suppliers, entry?.supplierId) },
            { name: "bearing", label: "Bearing", options: Object.entries(BEARING_NAMES) },
            { name: "staging", label: "Alone or of a pair", hint: "Oil at the compressor of the low-pressure one is normal", options: Object.entries(STAGING_NAMES) },
            { name: "axialPlayMinMm", label: "Axial play from, mm", hint: "The maker\u2019s limits: the bench reads play against them" },
            { name: "axialPlayMaxMm", label: "Axial play to, mm" },
            { name: "radialPlayMaxMm", label: "Radial play up to, mm" },
            { name: "drainBoreMm", label: "Bore of its drain, mm" },
            { name: "replacementCost", label: "What another one costs you", hint: "In the settings\u2019 currency; empty, the settings\u2019 figure holds" },
          ]}
        />
      </section>
    </EntryPage>
  );
}
