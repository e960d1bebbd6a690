import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireStaff } from "@/lib/access/staff";
import { loadCatalogue, loadEntry } from "@/lib/operations/load-catalogue";
import { joinFittersHere, keepFitterHere } from "../../actions";
import { EntryForm } from "../../entry-form";
import { EntryPage } from "../../entry-page";
import styles from "../../catalogue.module.css";
import { found, idOf } from "../../read-id";

export const metadata: Metadata = { title: "Fitter" };

export default async function FitterPage({ params, searchParams }: { params: Promise<{ id: string }>; searchParams: Promise<{ said?: string; like?: string }> }) {
  // Customers name fitters when they file: nobody adds one here.
  const id = idOf((await params).id) ?? notFound();
  const actor = await requireStaff(`/catalogue/fitters/${id}`);
  const { entry, seen } = found(await loadEntry(actor, "fitters", id));
  if (!entry) notFound();
  const { said, like } = await searchParams;
  const words = like ?? entry.name.split(" ")[0] ?? "";
  const { fitters, fittersInAll } = found(await loadCatalogue(actor, words));
  const others = fitters.filter((other) => other.id !== id);
  return (
    <EntryPage actor={actor} heading={entry.place ? `${entry.name}, ${entry.place}` : entry.name} said={said} removable={{ kind: "fitters", id, name: entry.name }}>
      <section className="sheet">
        <EntryForm
          action={keepFitterHere.bind(null, id)}
          seen={seen}
          label="Keep it so"
          values={{ ...entry }}
          fields={[
            { name: "name", label: "Name" },
            { name: "place", label: "Place", hint: "May be left empty" },
          ]}
        />
      </section>
      <section className="sheet">
        <h2>Is it the same as another?</h2>
        <p>Customers write one garage in several ways. The claims then count for the one you keep.</p>
        <form className={styles.search}>
          <label>
            Those with these words
            <input type="search" name="like" defaultValue={words} autoComplete="off" />
          </label>
          <button type="submit" className="button tight plain">
            Look
          </button>
        </form>
        {others.length > 0 ? (
          <form action={joinFittersHere.bind(null, id)} className={styles.search}>
            <label>
              It is the same as
              <select name="into">
                {others.map(({ id: other, name, place, _count }) => (
                  <option key={other} value={other}>
                    {place ? `${name}, ${place}` : name} ({_count.claims === 1 ? "1 claim" : `${_count.claims} claims`})
                  </option>
                ))}
              </select>
            </label>
            <button type="submit" className="button tight">
              Keep that one
            </button>
          </form>
        ) : (
          <p>No other fitter has them.</p>
        )}
        {fittersInAll > fitters.length ? <p className="small soft">The {fitters.length} with most claims of {fittersInAll}: more words show others.</p> : null}
      </section>
    </EntryPage>
  );
}
