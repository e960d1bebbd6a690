import type { Metadata } from "next";
import Link from "next/link";
import { requireStaff } from "@/lib/access/staff";
import { dayOfColumn } from "@/lib/domain/warranty/calendar-day";
import { loadSupplier } from "@/lib/operations/load-catalogue";
import { keepSupplierHere } from "../../actions";
import styles from "../../catalogue.module.css";
import { EntryForm } from "../../entry-form";
import { EntryPage } from "../../entry-page";
import { makesInWords } from "../../makes-in-words";
import { found, idOf } from "../../read-id";

export const metadata: Metadata = { title: "Supplier" };

export default async function SupplierPage({ params, searchParams }: { params: Promise<{ id: string }>; searchParams: Promise<{ said?: string }> }) {
  const id = idOf((await params).id);
  const actor = await requireStaff(`/catalogue/suppliers/${id ?? "new"}`);
  const { entry, seen, makes } = found(await loadSupplier(actor, id));
  return (
    <EntryPage
      actor={actor}
      heading={entry ? `${entry.name} ${makesInWords({ turboModels: makes.turboModels.length, kits: makes.kits.length })}` : "A supplier to add"}
      said={(await searchParams).said}
      {...(id && entry ? { removable: { kind: "suppliers" as const, id, name: entry.name } } : {})}
    >
      <section className="sheet">
        <EntryForm
          action={keepSupplierHere.bind(null, id)}
          seen={seen}
          label={entry ? "Keep it so" : "Add it"}
          values={entry ? { ...entry, answerWithinDays: String(entry.answerWithinDays), retiredOn: entry.retiredOn ? dayOfColumn(entry.retiredOn) : "" } : { answerWithinDays: "30" }}
          fields={[
            { name: "code", label: "Code", hint: "As files name it" },
            { name: "name", label: "Name", hint: "As it stands on a chargeback" },
            { name: "email", label: "Mail for claims", type: "email", hint: "Where chargebacks go" },
            { name: "address", label: "Address for claims", hint: "In one line, as on an envelope; may be left empty" },
            { name: "answerWithinDays", label: "Answers within, days", hint: "As agreed with them" },
            { name: "retiredOn", label: "Bought from until", type: "date", hint: "Left empty while you buy from them; what they made is charged back to them afterwards too" },
          ]}
        />
      </section>
      {entry ? (
        <section className="sheet">
          <h2>What they make</h2>
          {makes.turboModels.length + makes.kits.length === 0 ? <p>Nothing yet: say so on the page of a turbo model or of a kit, or by file.</p> : null}
          <Made name="Turbo models" at="turbo-models" entries={makes.turboModels} />
          <Made name="Parts of kits" at="kits" entries={makes.kits} />
          <p className="small">
            What verdicts lay to these can be <Link href="/returns/chargebacks">charged back</Link>.
          </p>
        </section>
      ) : null}
    </EntryPage>
  );
}

function Made({ name, at, entries }: { name: string; at: "turbo-models" | "kits"; entries: readonly { id: string; code: string; name: string }[] }) {
  if (entries.length === 0) return null;
  return (
    <>
      <h3>{name}</h3>
      <ul className={styles.made}>
        {entries.map(({ id, code, name: called }) => (
          <li key={id}>
            <Link href={`/catalogue/${at}/${id}`}>{code}</Link> {called}
          </li>
        ))}
      </ul>
    </>
  );
}
