import "server-only";

export type TableValue = string | number | null;

/** A table that goes out as a file: the name of each column, in order, by the key it has in the rows. */
export interface FileTable {
  columns: Readonly<Record<string, string>>;
  rows: readonly Readonly<Record<string, TableValue>>[];
}

/** A table whose rows hold every column; the compiler checks it here, once. */
export function fileTable<Key extends string>(columns: Readonly<Record<Key, string>>, rows: readonly Readonly<Record<NoInfer<Key>, TableValue>>[]): FileTable {
  return { columns, rows };
}

/** A figure for a file: three decimals, and of what is below 1, a share or a rare rate, four digits; more than it bears and few enough to read. */
export function rounded(value: number | undefined): number | null {
  if (value === undefined) return null;
  return Math.abs(value) < 1 ? Number(value.toPrecision(4)) : Math.round(value * 1000) / 1000;
}
