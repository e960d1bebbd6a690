import type { PoolClient } from "pg";
import { connectionPool } from "@/lib/data/client";
import { SELLER } from "./seller";
import { type Row, TABLES, type Tables } from "./tables";

const ROWS_AT_ONCE = 4_000;

/** Whether the demo has been written before. */
export async function isThereAlready(): Promise<boolean> {
  const { rows } = await connectionPool().query<{ there: boolean }>('SELECT EXISTS (SELECT FROM "order") AS there');
  return rows[0]?.there ?? false;
}

/**
 * Writes the whole demo in one transaction, so that a killed seed leaves nothing behind, then lets the planner count.
 * Each statement takes thousands of rows as one JSON parameter.
 */
export async function writeTables(tables: Tables): Promise<void> {
  const client = await connectionPool().connect();
  try {
    await client.query("BEGIN");
    await writeSettings(client);
    for (const table of TABLES) {
      const rows = tables.rows(table);
      for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) await insertRows(client, table, rows.slice(from, from + ROWS_AT_ONCE));
    }
    await client.query("COMMIT");
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
  await client.query(`INSERT INTO "${table}" (${columns}) SELECT ${columns} FROM json_populate_recordset(NULL::"${table}", $1)`, [JSON.stringify(rows)]);
}
