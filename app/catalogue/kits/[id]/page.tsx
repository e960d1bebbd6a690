import type { Metadata } from "next";
import Link from "next/link";
import { requireStaff } from "@/lib/access/staff";
import { dayOfColumn } from "@/lib/domain/warranty/calendar-day";
import { loadKit } from "@/lib/operations/load-catalogue";
import { keepKitHere } from "../../actions";
import styles from "../../catalogue.module.css";
import { EntryForm } from "../../entry-form";
import { EntryPage } from "../../entry-page";
import { makerOptions } from "../../maker-options";
import { found, idOf } from "../../read-id";

export const metadata: Metadata = { title: "Kit" };

export default async function KitPage({ params, searchParams }: { params: Promise<{ id: string }>; searchParams: Promise<{ said?: string }> }) {
  const id = idOf((await params).id);
  const actor = await requireStaff(`/catalogue/kits/${id ?? "new"}`);
  const { entry, seen, revisions, vehicles, turboModels, suppliers } = found(await loadKit(actor, id));
  const newest = revisions[0];
  return (
    <EntryPage
      actor={actor}
      heading={entry ? `${entry.code} ${entry.name}: ${newest ? `revision ${newest.revision} since ${dayOfColumn(newest.introducedOn)}` : "no revision yet"}` : "A kit to add"}
      said={(await searchParams).said}
      {...(id && entry ? { removable: { kind: "kits" as const, id, name: entry.code } } : {})}
    >
      <section className="sheet">
        <EntryForm
          action={keepKitHere.bind(null, id)}
          seen={seen}
          label={entry ? "Keep it so" : "Add it"}
          values={entry ? { code: entry.code, name: entry.name, turboModelId: entry.turboModelId ?? "", supplierId: entry.supplierId ?? "", retiredOn: entry.retiredOn ? dayOfColumn(entry.retiredOn) : "", fits: entry.fits.join(" ") } : {}}
          fields={[
            { name: "code", label: "Code", hint: "As orders and files name it" },
            { name: "name", label: "Name" },
            { name: "turboModelId", label: "Unit in the box", options: [["", "none: installation parts alone"], ...turboModels.map((model) => [model.id, `${model.code} ${model.name}`] as const)] },
            { name: "supplierId", label: "Who makes its parts", hint: "Beside the unit: a defect of theirs is charged back to them", options: makerOptions(suppliers, entry?.supplierId) },
            { name: "retiredOn", label: "Last sold on", type: "date", hint: "Left empty while it is sold" },
          ]}
          boxes={{ name: "fits", legend: "Sold for", options: vehicles.map((vehicle) => [vehicle.id, `${vehicle.make} ${vehicle.model} ${vehicle.engine}, ${vehicle.yearFrom}${vehicle.yearTo === null ? " on" : ` to ${vehicle.yearTo}`}`]) }}
        />
      </section>
      {id ? (
        <section className="sheet">
          <div className={styles.head}>
            <h2>Revisions</h2>
            <Link href={`/catalogue/kits/${id}/revisions/new`}>Add a revision</Link>
          </div>
          {revisions.length > 0 ? (
            <div className="table-region stacks">
              <table>
                <thead>
                  <tr>
                    <th scope="col">Revision</th>
                    <th scope="col">Introduced on</th>
                    <th scope="col">What changed</th>
                    <th scope="col" className="num">
                      Shipped
                    </th>
                  </tr>
                </thead>
                <tbody>
                  {revisions.map((revision) => (
                    <tr key={revision.id}>
                      <th scope="row">
                        <Link href={`/catalogue/kits/${id}/revisions/${revision.id}`}>Revision {revision.revision}</Link>
                      </th>
                      <td>{dayOfColumn(revision.introducedOn)}</td>
                      <td>{revision.change}</td>
                      <td className="num">{revision._count.shipments.toLocaleString("en")}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          ) : (
            <p>Shipments and claims name a revision: add the first one.</p>
          )}
        </section>
      ) : null}
    </EntryPage>
  );
}
