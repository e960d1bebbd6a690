import { describedBy, Field } from "@/app/_components/field";
import { modelName, type ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { DeskFilter } from "@/lib/inputs/desk-filter";
import styles from "../reports.module.css";

/** Which claims the report is about; sent as the address. */
export function DeskFilterForm({ catalogue: { kits, vehicles }, given }: { catalogue: ReportCatalogue; given: DeskFilter }) {
  return (
    <form className={`${styles.filter} no-print`} action="/reports/desk">
      <Field id="from" label="Filed from">
        <input {...describedBy("from", {})} name="from" type="month" placeholder="2026-01" required defaultValue={given.from} />
      </Field>
      <Field id="to" label="to the end of">
        <input {...describedBy("to", {})} name="to" type="month" placeholder="2026-12" required defaultValue={given.to} />
      </Field>
      <Field id="kit" label="Kit">
        <select {...describedBy("kit", {})} name="kit" defaultValue={given.kit ?? ""}>
          <option value="">all kits</option>
          {kits.map(({ code, name }) => (
            <option key={code} value={code}>
              {code} {name}
            </option>
          ))}
        </select>
      </Field>
      <Field id="vehicle" label="Vehicle">
        <select {...describedBy("vehicle", {})} name="vehicle" defaultValue={given.vehicle ?? ""}>
          <option value="">all vehicles</option>
          {vehicles.map((vehicle) => (
            <option key={vehicle.id} value={vehicle.id}>
              {modelName(vehicle)}
            </option>
          ))}
          <option value="unknown">not known</option>
        </select>
      </Field>
      <button className="button tight" type="submit">
        Show
      </button>
    </form>
  );
}
