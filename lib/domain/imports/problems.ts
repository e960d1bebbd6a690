import { importField } from "./fields";
import type { ImportKind } from "./kinds";
import type { RowProblem } from "./read-row";

/** What only other rows or the database can tell of a row. */
export const TABLE_PROBLEMS = ["twice-in-file", "differs-in-file", "differs", "unknown-kit", "unknown-revision", "unknown-turbo-model", "unknown-supplier", "no-turbo-model", "unknown-vehicle", "several-vehicles", "has-claim"] as const;
export type TableProblem = (typeof TABLE_PROBLEMS)[number];
export type ImportProblem = RowProblem | TableProblem;

/** A problem of a row as it is kept and told. */
export interface TellableProblem {
  field: string;
  problem: ImportProblem;
  /** What it clashes with: a line of the file, or the value kept so far. */
  other: string;
}

/**
 * What is wrong and what to do about it, in one or two sentences.
 *
 * @example problemInWords("shipments", { field: "kit", problem: "unknown-kit", other: "" })
 */
export function problemInWords(kind: ImportKind, { field, problem, other }: TellableProblem): string {
  switch (problem) {
    case "missing":
      return "It is empty. Fill it in";
    case "too-long":
      return "It is too long. Shorten it";
    case "not-readable":
      return "It holds signs that are no text. Save the file again as CSV in UTF-8";
    case "not-an-address":
      return "This is no e-mail address. Write one as name@example.com";
    case "not-a-country":
      return "Write the two letters of the country, as DE";
    case "not-a-choice":
      return `Write ${[...new Set(Object.values(importField(kind, field).choices ?? {}))].map((one) => one.replace("_", " ")).join(" or ")}`;
    case "not-a-number":
      return "Write a number such as 0.45 or 0,45, without a unit";
    case "not-a-year":
      return "Write a year in four figures";
    case "not-a-date":
      return "This is no date in the order that was chosen. Write it as 2026-03-01, or choose the other order";
    case "before-1990":
      return "It lies before 1990. Put the date right, or choose the other order";
    case "in-the-future":
      return "It lies in the future. Put the date right, or choose the other order";
    case "too-many-cells":
      return "The row has more cells than there are headings. Put text that holds the separator into quotation marks";
    case "not-above":
      return "It must be more than the lower end";
    case "not-positive":
      return "It must be more than 0";
    case "not-days":
      return "Write whole days, from 1 to 365";
    case "before-the-start":
      return "The last year lies before the first";
    case "shipped-before-ordered":
      return "It was shipped before it was ordered. Put one of the two dates right";
    case "vehicle-incomplete":
      return "A vehicle has make, model and engine. Fill it in, or leave all three empty where the vehicle is not known";
    case "without-serial":
      return "A batch is a unit's: write the unit's serial, or leave the batch empty";
    case "twice-in-file":
      return `It stands in line ${other} already. Leave one of the two out`;
    case "differs-in-file":
      return `Another row about the same says otherwise: ${other}. Make the rows agree`;
    case "differs":
      return `So far it is kept as ${other === "" ? "empty" : other}. Choose to update rows that are there already, or put it right`;
    case "unknown-kit":
      return "There is no kit with this code. Bring in the kits first, or correct the code";
    case "unknown-revision":
      return "This kit has no such revision. Bring in the kits first, or leave it empty for the one sold on that day";
    case "unknown-turbo-model":
      return "There is no turbo model with this code. Bring in the turbo models first, or correct the code";
    case "unknown-supplier":
      return "There is no supplier with this code. Bring in the suppliers first, or correct the code";
    case "no-turbo-model":
      return "This kit is sold without a turbo. Say which turbo model the unit is";
    case "unknown-vehicle":
      return "There is no such vehicle. Bring in the vehicles first, correct it, or leave it empty where it is not known";
    case "several-vehicles":
      return "Several vehicles are called so. Add the year from which it was built";
    case "has-claim":
      return `There is a claim about it, so what was sent stays as it is: ${other}`;
  }
}
