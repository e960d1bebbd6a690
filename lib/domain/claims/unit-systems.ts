/** What a customer reads and types amounts in; each field can still be switched by itself. */
export const UNIT_SYSTEMS = ["metric", "imperial"] as const;
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

export const FIRST_UNIT_SYSTEM: UnitSystem = "metric";
