import "server-only";
import { readdir } from "node:fs/promises";
import path from "node:path";
import type pg from "pg";

export const MIGRATIONS_FOLDER = path.resolve("prisma/migrations");

/** The migrations there are, in their order. */
export async function migrationNames(folder = MIGRATIONS_FOLDER): Promise<string[]> {
  const entries = await readdir(/*turbopackIgnore: true*/ folder, { withFileTypes: true });
  return entries
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();
}

/** The migrations that are in, of a database that may be empty yet. */
export async function appliedNames(pool: pg.Pool): Promise<string[]> {
  const { rows: tables } = await pool.query<{ found: string | null }>("select to_regclass('_prisma_migrations')::text as found");
  if (!tables[0]?.found) return [];
  const { rows } = await pool.query<{ migration_name: string }>("select migration_name from _prisma_migrations where finished_at is not null and rolled_back_at is null");
  return rows.map((row) => row.migration_name);
}
