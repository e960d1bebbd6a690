import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import type { Say } from "@/lib/domain/say";

/** Given to each help: how to say things, and the name of the field that it fills in. */
export interface HelpProps {
  say: Say;
  field: string;
  units: UnitSystem;
  /** A slope of which only the amount is asked. */
  isUnsigned: boolean;
}
