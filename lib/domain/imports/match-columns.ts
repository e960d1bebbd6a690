import { IMPORT_FIELDS } from "./fields";
import type { ImportKind } from "./kinds";

/** Which column of the file tells each field, counted from 0; null where none does. */
export type ColumnOfField = Readonly<Record<string, number | null>>;

/**
 * A heading without what people write differently: case, accents, spaces, signs.
 *
 * @example bareHeading("Serial-No.") === "serialno"
 */
export function bareHeading(heading: string): string {
  return heading
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, "");
}

/**
 * Matches the columns of a file to the fields by their headings: first those named as the sample file names them, then
 * by other common headings. A column is taken once, and of two alike the first.
 *
 * @example matchColumns("fitments", ["SKU", "Make", "Model", "Motor"]) matches kit, make, model and engine, and no year
 */
export function matchColumns(kind: ImportKind, headings: readonly string[]): ColumnOfField {
  const bare = headings.map(bareHeading);
  const taken = new Set<number>();
  const matched: Record<string, number | null> = Object.fromEntries(IMPORT_FIELDS[kind].map(({ key }) => [key, null]));
  const take = (key: string, wanted: readonly string[]) => {
    for (const heading of wanted) {
      const column = bare.findIndex((one, index) => one === heading && !taken.has(index));
      if (column === -1 || matched[key] !== null) continue;
      taken.add(column);
      matched[key] = column;
    }
  };
  for (const { key, name } of IMPORT_FIELDS[kind]) take(key, [bareHeading(name), bareHeading(key)]);
  for (const { key, synonyms } of IMPORT_FIELDS[kind]) take(key, synonyms);
  return matched;
}

/** A column as a spreadsheet names it: A, B ... Z, AA. */
export function columnLetter(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnLetter(Math.floor(column / 26) - 1) + last;
}
