import "server-only";
import { IMPORT_FIELDS, type ImportField } from "@/lib/domain/imports/fields";
import type { ImportKind } from "@/lib/domain/imports/kinds";
import type { ImportProblem, TableProblem } from "@/lib/domain/imports/problems";
import type { Db } from "./client";

/**
 * The rows of one file on their way in. They lie in temporary tables that vanish with the transaction, whatever becomes of
 * it: a killed worker leaves no customer's data behind.
 *
 * `staged` holds the rows as read, `resolved` the same with what each is about (`kept_id` is the row of ours, null for a
 * new one), `staged_problem` what is wrong, `staged_difference` what is kept otherwise.
 */
export interface StagedRow {
  line: number;
  values: Readonly<Record<string, string | null>>;
}

export interface StagedProblem {
  line: number;
  field: string;
  value: string;
  problem: ImportProblem;
}

const SQL_TYPES: Readonly<Record<ImportField["type"], string>> = { text: "text", email: "text", country: "text", choice: "text", measure: "float8", year: "int", date: "date" };
/** More is no help to anybody; how many there are is counted all the same. */
export const MOST_PROBLEMS_KEPT = 10_000;

/** Every statement here is put together from constants of ours; what comes from a file is a parameter. */
export const run = (db: Db, sql: string, ...parameters: string[]): Promise<number> => db.$executeRawUnsafe(sql, ...parameters);

export async function createStaging(db: Db, kind: ImportKind): Promise<void> {
  const columns = IMPORT_FIELDS[kind].map(({ key, type }) => `"${key}" ${SQL_TYPES[type]}`).join(", ");
  await run(db, `CREATE TEMP TABLE staged (line int NOT NULL, ${columns}) ON COMMIT DROP`);
  for (const table of ["staged_problem", "staged_difference"]) await run(db, `CREATE TEMP TABLE ${table} (line int, field text, value text, problem text, other text DEFAULT '') ON COMMIT DROP`);
}

export async function stageRows(db: Db, rows: readonly StagedRow[], problems: readonly StagedProblem[]): Promise<void> {
  if (rows.length > 0) await run(db, "INSERT INTO staged SELECT * FROM json_populate_recordset(NULL::staged, $1::json)", JSON.stringify(rows.map(({ line, values }) => ({ line, ...values }))));
  if (problems.length > 0) await run(db, "INSERT INTO staged_problem SELECT * FROM json_populate_recordset(NULL::staged_problem, $1::json)", JSON.stringify(problems.map((problem) => ({ ...problem, value: problem.value.replaceAll("\0", ""), other: "" }))));
}

/** Makes `resolved`, for the checks to stand on. */
export async function resolveRows(db: Db, select: string): Promise<void> {
  await run(db, "ANALYZE staged");
  await run(db, `CREATE TEMP TABLE resolved ON COMMIT DROP AS ${select}`);
  await run(db, "ANALYZE resolved");
}

/** Tells a problem of the field in every row of `resolved` for which the condition holds. */
export async function tell(db: Db, field: string, problem: TableProblem, condition: string): Promise<void> {
  await run(db, `INSERT INTO staged_problem SELECT line, '${field}', "${field}"::text, '${problem}' FROM resolved WHERE ${condition}`);
}

/** Tells rows about the same, by these columns, as one before. */
export async function tellTwice(db: Db, field: string, columns: readonly string[]): Promise<void> {
  const same = columns.join(", ");
  await run(
    db,
    `INSERT INTO staged_problem SELECT line, '${field}', "${field}"::text, 'twice-in-file', first_line::text
     FROM (SELECT *, min(line) OVER (PARTITION BY ${same}) AS first_line FROM resolved WHERE ${columns.map((column) => `${column} IS NOT NULL`).join(" AND ")}) AS r
     WHERE line <> first_line`,
  );
}

/** Tells rows that say otherwise, of what several rows tell about the same thing, than the first that says it. */
export async function tellDisagreement(db: Db, thing: string, fields: readonly string[]): Promise<void> {
  for (const field of fields) {
    await run(
      db,
      `INSERT INTO staged_problem SELECT line, '${field}', "${field}"::text, 'differs-in-file', concat(first_value, ' in line ', first_line)
       FROM (SELECT line, "${field}", first_value("${field}") OVER first_said AS first_value, first_value(line) OVER first_said AS first_line
             FROM resolved WHERE "${field}" IS NOT NULL WINDOW first_said AS (PARTITION BY "${thing}" ORDER BY line)) AS r
       WHERE "${field}" <> first_value`,
    );
  }
}

/**
 * Notes where a row says otherwise than what is kept. An empty cell says nothing: what is kept stays.
 *
 * @param kept the kept value as SQL, `m.name`
 * @param from what joins it to `resolved AS r`
 */
export async function noteDifference(db: Db, field: string, kept: string, from: string, differs = `r."${field}" IS NOT NULL AND r."${field}" IS DISTINCT FROM ${kept}`): Promise<void> {
  await run(db, `INSERT INTO staged_difference SELECT r.line, '${field}', r."${field}"::text, 'differs', coalesce(${kept}::text, '') FROM resolved AS r ${from} WHERE ${differs}`);
}

/** Makes every difference a problem: the file may only add. */
export async function refuseDifferences(db: Db): Promise<void> {
  await run(db, "INSERT INTO staged_problem SELECT * FROM staged_difference");
}

export interface StagedCounts {
  rows: number;
  added: number;
  changed: number;
  faulty: number;
}

export async function countStaged(db: Db): Promise<StagedCounts> {
  const [counts] = await db.$queryRaw<StagedCounts[]>`
    SELECT (SELECT count(*)::int FROM resolved) AS rows,
      (SELECT count(*)::int FROM resolved WHERE kept_id IS NULL) AS added,
      (SELECT count(DISTINCT line)::int FROM staged_difference) AS changed,
      (SELECT count(DISTINCT line)::int FROM staged_problem) AS faulty`;
  if (!counts) throw new Error("countStaged needs the tables of a file on its way in");
  return counts;
}

/**
 * Keeps what is wrong with the rows, or with `what` the differences that were taken over, for whoever brought them in.
 *
 * @param headings of the column of each field
 */
export async function keepProblems(db: Db, importId: string, what: "staged_problem" | "staged_difference", headings: Readonly<Record<string, string>>): Promise<void> {
  await run(
    db,
    `INSERT INTO import_problem (import_id, ordinal, line, field, "column", value, problem, other)
     SELECT $1::uuid, row_number() OVER (ORDER BY line, field), line, field, coalesce($2::json ->> field, ''), left(coalesce(value, ''), 100), problem, left(coalesce(other, ''), 200)
     FROM (SELECT * FROM ${what} ORDER BY line, field LIMIT ${MOST_PROBLEMS_KEPT}) AS p`,
    importId,
    JSON.stringify(headings),
  );
}
