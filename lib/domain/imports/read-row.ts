import { isAnswerTime } from "@/lib/domain/catalogue/entries";
import { IMPORT_FIELDS } from "./fields";
import type { ImportKind } from "./kinds";
import type { ColumnOfField } from "./match-columns";
import { type DateOrder, readValue, type ValueProblem } from "./read-value";

/** What may be wrong between the values of one row. */
export const ROW_PROBLEMS = ["too-many-cells", "not-above", "not-positive", "not-days", "before-the-start", "shipped-before-ordered", "vehicle-incomplete", "without-serial"] as const;
export type RowProblem = ValueProblem | (typeof ROW_PROBLEMS)[number];

export interface FoundInRow {
  /** Key of the field, or empty for the row as a whole. */
  field: string;
  /** As it stands in the file. */
  value: string;
  problem: RowProblem;
}

/** How the cells of a file are to be read. */
export interface RowReading {
  columns: ColumnOfField;
  dateOrder: DateOrder;
  /** Of the heading line. */
  width: number;
  /** `2026-11-25` */
  today: string;
}

export interface ReadRow {
  /** By key of the field, each as it is kept; only fields that have a column. */
  values: Readonly<Record<string, string | null>>;
  problems: readonly FoundInRow[];
}

/**
 * Reads one row of a file: each value by its field, then what the values say of each other. What only the other rows or
 * the database can tell is checked there.
 */
export function readRow(kind: ImportKind, cells: readonly string[], reading: RowReading): ReadRow {
  const values: Record<string, string | null> = {};
  const problems: FoundInRow[] = [];
  if (cells.length > reading.width && cells.slice(reading.width).some((cell) => cell.trim() !== "")) problems.push({ field: "", value: cells.slice(reading.width).join(" "), problem: "too-many-cells" });
  for (const field of IMPORT_FIELDS[kind]) {
    const column = reading.columns[field.key] ?? null;
    if (column === null) continue;
    const cell = cells[column] ?? "";
    const read = readValue(field, cell, reading.dateOrder, reading.today);
    if (read.ok) values[field.key] = read.value;
    else problems.push({ field: field.key, value: cell, problem: read.problem });
  }
  if (problems.length > 0) return { values, problems };
  return { values, problems: betweenValues(kind, values) };
}

function betweenValues(kind: ImportKind, values: Readonly<Record<string, string | null>>): FoundInRow[] {
  const found: FoundInRow[] = [];
  const value = (key: string) => values[key] ?? null;
  const tell = (field: string, problem: RowProblem) => found.push({ field, value: value(field) ?? "", problem });
  switch (kind) {
    case "suppliers": {
      const days = value("answer_within_days");
      if (days !== null && !isAnswerTime(Number(days))) tell("answer_within_days", "not-days");
      break;
    }
    case "turbo_models":
      if (Number(value("axial_play_max_mm")) <= Number(value("axial_play_min_mm"))) tell("axial_play_max_mm", "not-above");
      for (const field of ["radial_play_max_mm", "drain_bore_mm", "replacement_cost"]) if (value(field) !== null && Number(value(field)) <= 0) tell(field, "not-positive");
      break;
    case "vehicles":
      if (value("year_to") !== null && Number(value("year_to")) < Number(value("year_from"))) tell("year_to", "before-the-start");
      break;
    case "shipments": {
      const [placedOn, shippedOn] = [value("placed_on"), value("shipped_on")];
      if (placedOn !== null && shippedOn !== null && placedOn > shippedOn) tell("shipped_on", "shipped-before-ordered");
      const vehicle = ["make", "model", "engine"];
      if (vehicle.some((key) => value(key) !== null)) for (const key of vehicle) if (value(key) === null) tell(key, "vehicle-incomplete");
      // The turbo model may stand in each row; a batch is a unit's.
      if (value("serial") === null && value("batch") !== null) tell("batch", "without-serial");
      break;
    }
    case "kits":
    case "fitments":
      break;
  }
  return found;
}
