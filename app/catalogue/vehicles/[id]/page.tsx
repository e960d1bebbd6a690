import type { Metadata } from "next";
import { requireStaff } from "@/lib/access/staff";
import { FUELS } from "@/lib/domain/catalogue/entries";
import { loadEntry } from "@/lib/operations/load-catalogue";
import { keepVehicleHere } from "../../actions";
import { EntryForm } from "../../entry-form";
import { EntryPage } from "../../entry-page";
import { found, idOf } from "../../read-id";

export const metadata: Metadata = { title: "Vehicle" };

export default async function VehiclePage({ params, searchParams }: { params: Promise<{ id: string }>; searchParams: Promise<{ said?: string }> }) {
  const id = idOf((await params).id);
  const actor = await requireStaff(`/catalogue/vehicles/${id ?? "new"}`);
  const { entry, seen } = found(await loadEntry(actor, "vehicles", id));
  const name = entry && `${entry.make} ${entry.model} ${entry.engine}`;
  return (
    <EntryPage
      actor={actor}
      heading={entry ? `${name}, ${entry.yearTo === null ? `built since ${entry.yearFrom}` : `built ${entry.yearFrom} to ${entry.yearTo}`}` : "A vehicle to add"}
      said={(await searchParams).said}
      {...(id && name ? { removable: { kind: "vehicles" as const, id, name } } : {})}
    >
      <section className="sheet">
        <EntryForm
          action={keepVehicleHere.bind(null, id)}
          seen={seen}
          label={entry ? "Keep it so" : "Add it"}
          values={entry ? { ...entry, yearFrom: String(entry.yearFrom), yearTo: String(entry.yearTo ?? "") } : {}}
          fields={[
            { name: "make", label: "Make" },
            { name: "model", label: "Model" },
            { name: "engine", label: "Engine", hint: "Another engine is another vehicle: it drains and breathes its own way" },
            { name: "fuel", label: "Fuel", hint: "Diesels have a danger of their own: oil in the intake can make them run away", options: FUELS.map((fuel) => [fuel, fuel]) },
            { name: "yearFrom", label: "Built from" },
            { name: "yearTo", label: "Built to", hint: "Left empty, it still is" },
          ]}
        />
      </section>
    </EntryPage>
  );
}
