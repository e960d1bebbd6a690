export type Value = string | number | boolean | null | readonly Value[] | { readonly [key: string]: Value };
export type Row = Readonly<Record<string, Value>>;

/** The tables the demo fills, parents before children, as the database calls them. */
export const TABLES = [
  "person",
  "turbo_model",
  "kit",
  "kit_revision",
  "vehicle",
  "fitment",
  "order",
  "unit",
  "shipment",
  "fitter",
  "claim",
  "claim_key",
  "photo",
  "ranking",
  "return",
  "bench_inspection",
  "disposition",
  "finding",
  "check_request",
  "message",
  "verdict",
  "second_opinion",
  "settlement",
  "audit_entry",
  "outgoing_mail",
] as const;
export type TableName = (typeof TABLES)[number];

/** Rows by table, in memory: the whole demo before any of it is written. Columns are named as in the database. */
export class Tables {
  readonly #rows = new Map<TableName, Row[]>();

  add(table: TableName, row: Row): void {
    const rows = this.#rows.get(table);
    if (rows) rows.push(row);
    else this.#rows.set(table, [row]);
  }

  rows(table: TableName): readonly Row[] {
    return this.#rows.get(table) ?? [];
  }

  /** Puts the rows of a table in the order of a text column. */
  sort(table: TableName, column: string): void {
    this.#rows.get(table)?.sort((a, b) => Number(String(a[column]) > String(b[column])) - Number(String(a[column]) < String(b[column])));
  }
}
