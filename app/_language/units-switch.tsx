import { UNIT_SYSTEMS, type UnitSystem } from "@/lib/domain/claims/unit-systems";
import type { Words } from "@/lib/messages/words";
import { chooseUnits } from "./actions";

/** The other units, beside the languages: a plain form. */
export function UnitsSwitch({ units, words }: { units: UnitSystem; words: Words }) {
  return (
    <form action={chooseUnits} className="no-print" aria-label={words("house.units.label")}>
      {UNIT_SYSTEMS.filter((other) => other !== units).map((other) => (
        <button key={other} type="submit" name="units" value={other} className="link-button">
          {words(`house.units.${other}`)}
        </button>
      ))}
    </form>
  );
}
