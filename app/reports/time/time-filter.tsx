import { Fragment, type ReactNode } from "react";
import { describedBy, Field } from "@/app/_components/field";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { modelName, type ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { OUTCOME_NAMES, OUTCOMES } from "@/lib/domain/reporting/outcomes";
import styles from "../reports.module.css";

export type TimeField = "revision" | "batch" | "cause" | "outcome" | "by" | "each" | "months";

/** What a page about time shows; sent as the address, so that a view can be kept and passed on. */
export function TimeFilter({
  action,
  period,
  fields,
  catalogue: { kits, vehicles },
  causes,
  given,
  errors = {},
}: {
  action: string;
  /** What the months are of: "Shipped from". */
  period: string;
  fields: readonly TimeField[];
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
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
  const input = (name: string, label: string, attributes: { type?: string; inputMode?: "numeric"; placeholder?: string } = {}) => (
    <Field id={name} label={label} error={errors[name]}>
      <input {...describedBy(name, { error: errors[name] })} {...attributes} name={name} defaultValue={given[name]} />
    </Field>
  );
  const revisions = [...new Set(kits.filter(({ code }) => given.kit === undefined || code === given.kit).flatMap((kit) => kit.revisions.map(({ revision }) => revision)))].sort();
  const more: Readonly<Record<TimeField, () => ReactNode>> = {
    revision: () =>
      choice(
        "revision",
        "Revision",
        revisions.map((revision) => ({ value: revision, label: revision })),
        "all",
      ),
    batch: () => input("batch", "Batch of the unit"),
    cause: () =>
      choice(
        "cause",
        "Primary cause",
        causes.map(({ code, name }) => ({ value: code, label: `${code} ${name}` })),
        "any, or not yet decided",
      ),
    outcome: () =>
      choice(
        "outcome",
        "Laid to",
        [...OUTCOMES.map((outcome) => ({ value: outcome, label: OUTCOME_NAMES[outcome] })), { value: "decided", label: "anything, decided" }],
        "anything, or not yet decided",
      ),
    by: () =>
      choice("by", "Months are of", [
        { value: "shipped", label: "shipping" },
        { value: "filed", label: "filing" },
      ]),
    each: () =>
      choice("each", "A line for each", [
        { value: "kit", label: "kit" },
        { value: "cause", label: "cause" },
      ]),
    months: () => input("months", "Months ahead, 1 to 24", { inputMode: "numeric" }),
  };
  return (
    <form className={`${styles.filter} no-print`} action={action}>
      {input("from", `${period} from`, { type: "month", placeholder: "2026-01" })}
      {input("to", "to the end of", { type: "month", placeholder: "2026-01" })}
      {choice(
        "kit",
        "Kit",
        kits.map(({ code, name }) => ({ value: code, label: `${code} ${name}` })),
        "all kits",
      )}
      {choice("vehicle", "Vehicle", [...vehicles.map((vehicle) => ({ value: vehicle.id, label: modelName(vehicle) })), { value: "unknown", label: "not known" }], "all vehicles")}
      {fields.map((name) => (
        <Fragment key={name}>{more[name]()}</Fragment>
      ))}
      <button className="button tight" type="submit">
        Show
      </button>
    </form>
  );
}
