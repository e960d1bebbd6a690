import { describedBy, Field } from "@/app/_components/field";
import { ORIGINS } from "@/lib/domain/diagnosis/attributions";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { modelName, type ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { OUTCOME_NAMES, OUTCOMES } from "@/lib/domain/reporting/outcomes";
import { fitterName, ORIGIN_NAMES } from "../narrowing-in-words";
import styles from "../reports.module.css";

/** Fields that are folded away until one of them is used. */
const FOLDED = ["revision", "batch", "outcome", "origin", "fitter", "serviceFrom", "serviceTo", "with"];

/** What the report shows; sent as the address, so that a view can be kept and passed on. */
export function FilterForm({
  catalogue: { kits, vehicles },
  causes,
  fitter = null,
  given,
  errors = {},
}: {
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  fitter?: { id: string; name: string; place: string } | null;
  given: Readonly<Partial<Record<string, string | number>>>;
  errors?: Readonly<Partial<Record<string, string>>>;
}) {
  const choice = (name: string, label: string, options: readonly { value: string; label: string }[], all?: string) => (
    <Field id={name} label={label} error={errors[name]}>
      <select {...describedBy(name, { error: errors[name] })} name={name} defaultValue={options.some(({ value }) => value === given[name]) ? given[name] : ""}>
        {all ? <option value="">{all}</option> : null}
        {options.map(({ value, label: words }) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  );
  const month = (name: string, label: string) => (
    <Field id={name} label={label} error={errors[name]}>
      <input {...describedBy(name, { error: errors[name] })} name={name} type="month" placeholder="2026-01" required defaultValue={given[name]} />
    </Field>
  );
  const number = (name: string, label: string) => (
    <Field id={name} label={label} error={errors[name]}>
      <input {...describedBy(name, { error: errors[name] })} name={name} inputMode="numeric" defaultValue={given[name]} />
    </Field>
  );
  const revisions = [...new Set(kits.filter(({ code }) => given.kit === undefined || code === given.kit).flatMap((kit) => kit.revisions.map(({ revision }) => revision)))].sort();
  return (
    <form className={`${styles.filter} no-print`} action="/reports/causes">
      {month("from", "Shipped from")}
      {month("to", "to the end of")}
      {choice(
        "kit",
        "Kit",
        kits.map(({ code, name }) => ({ value: code, label: `${code} ${name}` })),
        "all kits",
      )}
      {choice("vehicle", "Vehicle", [...vehicles.map((vehicle) => ({ value: vehicle.id, label: modelName(vehicle) })), { value: "unknown", label: "not known" }], "all vehicles")}
      {choice(
        "cause",
        "Primary cause",
        causes.map(({ code, name }) => ({ value: code, label: `${code} ${name}` })),
        "any, or not yet decided",
      )}
      {choice("by", "Rows", [
        { value: "kit", label: "kits" },
        { value: "revision", label: "kits and revisions" },
      ])}
      <details className={styles.more} open={FOLDED.some((name) => given[name] !== undefined || errors[name] !== undefined)}>
        <summary>More to narrow by</summary>
        <div className={styles.fields}>
          {choice(
            "revision",
            "Revision",
            revisions.map((revision) => ({ value: revision, label: revision })),
            "all",
          )}
          <Field id="batch" label="Batch of the unit" error={errors.batch}>
            <input {...describedBy("batch", { error: errors.batch })} name="batch" defaultValue={given.batch} />
          </Field>
          {choice(
            "outcome",
            "Laid to",
            [...OUTCOMES.map((outcome) => ({ value: outcome, label: OUTCOME_NAMES[outcome] })), { value: "decided", label: "anything, decided" }],
            "anything, or not yet decided",
          )}
          {choice(
            "origin",
            "Origin",
            ORIGINS.map((origin) => ({ value: origin, label: ORIGIN_NAMES[origin] })),
            "any",
          )}
          {number("serviceFrom", "Month in service, from 0")}
          {number("serviceTo", "to month")}
          {fitter ? choice("fitter", "Fitter", [{ value: fitter.id, label: fitterName(fitter) }], "all fitters") : null}
          {choice("with", "Counted by cause", [{ value: "probable", label: "verdicts, and apart probable causes" }], "verdicts")}
        </div>
      </details>
      <button className="button tight" type="submit">
        Show
      </button>
    </form>
  );
}
