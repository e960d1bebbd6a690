import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { Field, describedBy } from "@/app/_components/field";
import { OBSERVER_WORDS } from "@/app/queue/words";
import { requireStaff } from "@/lib/access/staff";
import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import { periodInWords } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter } from "@/lib/inputs/report-filter";
import { MOST_PHOTOS, type SupplierSelection, supplierSelectionSchema } from "@/lib/inputs/supplier-summary";
import { loadSupplierMatter, type SupplierMatter } from "@/lib/operations/supplier-summary";
import { address, cellAddress } from "../addresses";
import { claimsInWords, count } from "../figures-in-words";
import { unknownInWords, usualPeriod } from "../read-address";
import { RefusedFilter } from "../refused-filter";
import { selectionName } from "../selection-name";
import styles from "./supplier.module.css";

export const metadata: Metadata = { title: "Summary for a supplier" };

export default async function SupplierPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(address("/reports/supplier", firstValues(query)));
  const read = readFilter(supplierSelectionSchema, query, usualPeriod());
  if (!read.ok) return <RefusedFilter errors={read.errors} />;
  const matter = await loadSupplierMatter(actor, read.filter);
  if (matter.ok) return <SummaryForm filter={read.filter} matter={matter} />;
  if (matter.reason === "not-allowed") forbidden();
  if (matter.reason === "unknown") return <RefusedFilter errors={unknownInWords(matter)} />;
  return <RefusedFilter errors={{ kit: matter.reason === "too-wide" ? "Choose a kit or a batch: a supplier is told of their own alone." : "No decided claim is behind this choice: there is nothing to tell a supplier." }} />;
}

function SummaryForm({ filter, matter: { selection, cases, photos, seller, makers } }: { filter: SupplierSelection; matter: SupplierMatter }) {
  const cause = selection.causes.find(({ code }) => code === filter.cause)?.name;
  const name = selectionName(selection.catalogue, filter);
  const benched = cases.filter(({ bench }) => bench.length > 0).length;
  return (
    <>
      <p className="small letter soft">
        <a href={cellAddress({ ...filter, cause: undefined })}>{name}</a> / Summary for a supplier
      </p>
      <h1>
        What a supplier would be told: {claimsInWords(selection.report.figures.decided)} decided, {count(benched)} {benched === 1 ? "unit" : "units"} on the bench
      </h1>
      <p>
        {name}
        {filter.batch ? `, batch ${filter.batch}` : ""}
        {cause ? `, ${cause}` : ""}; shipped {periodInWords(filter)}. The summary holds the causes with their rates, what decided the cases, what the bench found and measured beside the limits, and the units by serial and batch, since a supplier must find them. It holds nothing of a customer: no name, address, reference or word of theirs.
      </p>
      <form className={styles.form} method="post" action="/api/reports/supplier">
        {Object.entries(filter).map(([field, value]) => (value === undefined ? null : <input key={field} type="hidden" name={field} value={value} />))}
        <Field id="supplier" label="Supplier, as it is to stand there (may stay empty)">
          <input {...describedBy("supplier", {})} name="supplier" maxLength={120} autoComplete="off" list="makers" defaultValue={makers.length === 1 ? makers[0] : ""} />
          <datalist id="makers">
            {makers.map((maker) => (
              <option key={maker} value={maker} />
            ))}
          </datalist>
        </Field>
        <Field id="ask" label="What is asked of the supplier" hint="It stands at the head. A text that names a customer of these claims is refused.">
          <textarea {...describedBy("ask", { hint: true })} name="ask" rows={5} required maxLength={2_000} />
        </Field>
        <Field id="paper" label="Paper">
          <select {...describedBy("paper", {})} name="paper" defaultValue="A4">
            <option value="A4">A4</option>
            <option value="LETTER">US Letter</option>
          </select>
        </Field>
        {photos.length > 0 ? (
          <fieldset>
            <legend>Photos to go with it, none unless ticked, {MOST_PHOTOS} at most</legend>
            <p className="small soft">Those of the bench first, then those of claims decided on a photo or a technician&rsquo;s look. They are encoded anew: place and time of taking do not come with them.</p>
            <ul className={styles.photos}>
              {photos.map(({ id, claimId, subject, takenBy }, index) => (
                <li key={id}>
                  <a href={`/queue/${claimId}/photos/${id}`}>
                    <img src={`/queue/${claimId}/photos/${id}?size=small`} alt={`${index + 1} of ${photos.length}, open it large`} loading="lazy" width="160" height="120" />
                  </a>
                  <label>
                    <input type="checkbox" name="photos" value={id} /> {subject in OIL_PATH_PARTS ? OIL_PATH_PARTS[subject as OilPathPart].name : subject === "unit" ? "The unit" : "Photo"} {index + 1}, {OBSERVER_WORDS[takenBy]}
                  </label>
                </li>
              ))}
            </ul>
            <label>
              <input type="checkbox" name="looked" value="yes" /> I have looked at each photo ticked: none shows a person, a number plate or a name
            </label>
          </fieldset>
        ) : (
          <p className="small soft">There is no photo of the bench and none that a verdict rests on.</p>
        )}
        <button className="button" type="submit">
          Write the PDF
        </button>
        <p className="small soft">From {seller}. That it was written is kept in the audit trail.</p>
      </form>
    </>
  );
}
