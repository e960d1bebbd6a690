import type { PoolClient } from "pg";
import { connectionPool } from "@/lib/data/client";
import { rebuildReportCells } from "@/lib/data/report-cells";
import { SELLER } from "./seller";
import { type Row, TABLES, type Tables } from "./tables";

/** About so much JSON goes into one statement, characters. */
const STATEMENT_SIZE = 2_000_000;

/** Whether the demo has been written before. */
export async function isThereAlready(): Promise<boolean> {
  const { rows } = await connectionPool().query<{ there: boolean }>('SELECT EXISTS (SELECT FROM "order") AS there');
  return rows[0]?.there ?? false;
}

/**
 * Writes the whole demo in one transaction, so that a killed seed leaves nothing behind, then lets the planner count.
 * Each statement takes many rows as one JSON parameter.
 */
export async function writeTables(tables: Tables): Promise<void> {
  const client = await connectionPool().connect();
  try {
    await client.query("BEGIN");
    await writeSettings(client);
    for (const table of TABLES) await insertRows(client, table, tables.rows(table));
    await client.query("COMMIT");
    await rebuildReportCells();
    await client.query("ANALYZE");
  } catch (error) {
    await client.query("ROLLBACK");
    throw error;
  } finally {
    client.release();
  }
}

async function writeSettings(client: PoolClient): Promise<void> {
  const columns = Object.keys(SELLER);
  await client.query(`UPDATE seller_settings SET ${columns.map((column, index) => `${column} = $${index + 1}`).join(", ")} WHERE id = 1`, Object.values(SELLER));
}

async function insertRows(client: PoolClient, table: string, rows: readonly Row[]): Promise<void> {
  const columns = Object.keys(rows[0] ?? {})
    .map((column) => `"${column}"`)
    .join(", ");
  let waiting: string[] = [];
  let size = 0;
  const send = async () => {
    await client.query(`INSERT INTO "${table}" (${columns}) SELECT ${columns} FROM json_populate_recordset(NULL::"${table}", $1)`, [`[${waiting.join(",")}]`]);
    waiting = [];
    size = 0;
  };
  for (const row of rows) {
    const json = JSON.stringify(row);
    waiting.push(json);
    size += json.length;
    if (size > STATEMENT_SIZE) await send();
  }
  if (waiting.length > 0) await send();
}
