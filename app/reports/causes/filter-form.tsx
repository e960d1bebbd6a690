import { describedBy, Field } from "@/app/_components/field";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { modelName, type ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import styles from "../reports.module.css";

/** What the report shows; sent as the address, so that a view can be kept and passed on. */
export function FilterForm({
  catalogue: { kits, vehicles },
  causes,
  given,
  errors = {},
}: {
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  given: Readonly<Partial<Record<string, string>>>;
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
        "Cause",
        causes.map(({ code, name }) => ({ value: code, label: `${code} ${name}` })),
        "any, or not yet decided",
      )}
      {choice("by", "Rows", [
        { value: "kit", label: "kits" },
        { value: "revision", label: "kits and revisions" },
      ])}
      <button className="button tight" type="submit">
        Show
      </button>
    </form>
  );
}
