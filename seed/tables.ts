export type Value = string | number | boolean | null | readonly Value[] | { readonly [key: string]: Value };
export type Row = Readonly<Record<string, Value>>;

/** The tables the demo fills, parents before children, as the database calls them. */
export const TABLES = [
  "person",
  "saved_filter",
  "warranty_terms",
  "supplier",
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
  "linked_claim",
  "ranking",
  "return",
  "parcel",
  "handover",
  "bench_inspection",
  "bench_step_record",
  "photo",
  "photo_mark",
  "disposition",
  "finding",
  "check_request",
  "message",
  "desk_note",
  "verdict",
  "verdict_proposal",
  "second_opinion",
  "settlement",
  "chargeback",
  "chargeback_line",
  "chargeback_answer",
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

  /** Changes columns of the rows of a table. */
  revise(table: TableName, change: (row: Row) => Row): void {
    this.#rows.set(table, this.rows(table).map((row) => ({ ...row, ...change(row) })));
  }

  /** Says otherwise of the row that has this value in a column. */
  amend(table: TableName, column: string, value: Value, columns: Row): void {
    const rows = this.#rows.get(table) ?? [];
    const index = rows.findIndex((row) => row[column] === value);
    if (index < 0) throw new Error(`Tables.amend needs a row of ${table} that is there, not ${String(value)}`);
    rows[index] = { ...rows[index], ...columns };
  }

  /** Puts the rows of a table in the order of a text column. */
  sort(table: TableName, column: string): void {
    this.#rows.get(table)?.sort((a, b) => Number(String(a[column]) > String(b[column])) - Number(String(a[column]) < String(b[column])));
  }
}
