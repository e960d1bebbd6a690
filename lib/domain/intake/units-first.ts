import type { UnitSystem } from "../claims/unit-systems";
import type { IntakeField, IntakeScreen } from "./fields";

const IMPERIAL: readonly string[] = ["in", "ft", "mi", "inH2O", "psi", "ft3/h", "ft3/min", "cu in"];

/** A field with the units of the customer's system first: a number starts in it, and can still be switched. */
export function unitsFirst(field: IntakeField, system: UnitSystem): IntakeField {
  if (field.kind !== "number" || system === "metric") return field;
  const isOwn = ({ value }: { value: string }) => IMPERIAL.includes(value);
  return { ...field, units: [...field.units.filter(isOwn), ...field.units.filter((unit) => !isOwn(unit))] };
}

export function withUnitsFirst(screen: IntakeScreen, system: UnitSystem): IntakeScreen {
  return { ...screen, fields: screen.fields.map((field) => unitsFirst(field, system)) };
}
