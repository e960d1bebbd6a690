import { spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { mkdir, mkdtemp, writeFile } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { expect, inject, onTestFinished, test } from "vitest";
import { createDatabase, withClient } from "@/lib/cli/database.mjs";
import { typescript } from "@/lib/cli/processes.mjs";
import { applyMigrations, migrationDifference } from "@/lib/data/migrations";

async function anEmptyDatabase(): Promise<string> {
  const serverUrl = inject("testServerUrl");
  const name = `empty_${randomUUID()}`;
  await createDatabase(serverUrl, name);
  onTestFinished(async () => {
    await withClient(serverUrl, (client) => client.query(`drop database "${name}" with (force)`));
  });
  const url = new URL(serverUrl);
  url.pathname = `/${name}`;
  return url.href;
}

async function aFolderOfMigrations(scripts: Record<string, string>): Promise<string> {
  const folder = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-migrations-"));
  for (const [name, sql] of Object.entries(scripts)) {
    await mkdir(path.join(folder, name), { recursive: true });
    await writeFile(path.join(folder, name, "migration.sql"), sql);
  }
  return folder;
}

function rowsOf(url: string, sql: string): Promise<Record<string, unknown>[]> {
  return withClient(url, async (client) => (await client.query(sql)).rows);
}

test("the migrations and the schema agree", async () => {
  expect(await migrationDifference(inject("testServerUrl"))).toBe("");
});

test("two processes that migrate at once both succeed, and each migration is applied once", async () => {
  const url = await anEmptyDatabase();
  const [one, other] = await Promise.all([applyMigrations(url), applyMigrations(url)]);
  expect([one, other].filter((applied) => applied.length === 0)).toHaveLength(1);
  expect(await rowsOf(url, "select from _prisma_migrations")).toHaveLength(one.length + other.length);
});

test("a second run applies nothing", async () => {
  const url = await anEmptyDatabase();
  await applyMigrations(url);
  expect(await applyMigrations(url)).toEqual([]);
});

test("a refused migration leaves nothing behind and goes through once it is put right", async () => {
  const url = await anEmptyDatabase();
  const names = { "1_first": "create table first (id int);", "2_second": "create table second (id int); insert into second values ('x'::text::int);" };
  await expect(applyMigrations(url, await aFolderOfMigrations(names))).rejects.toThrow("2_second");
  expect(await rowsOf(url, "select to_regclass('first')::text as first, to_regclass('second')::text as second")).toEqual([{ first: "first", second: null }]);
  const right = await aFolderOfMigrations({ ...names, "2_second": "create table second (id int);" });
  expect(await applyMigrations(url, right)).toEqual(["2_second"]);
});

test("a process killed in the middle of a migration does not stop the next", async () => {
  const url = await anEmptyDatabase();
  const folder = await aFolderOfMigrations({ "1_slow": "create table slow (id int); select pg_sleep(1.5); insert into slow values (1);" });
  const child = spawn(process.execPath, typescript("tests/setup/migrate-from.ts", url, folder), { stdio: "ignore" });
  await expect.poll(() => rowsOf(url, "select from pg_stat_activity where datname = current_database() and query like '%pg_sleep(1.5)%' and pid <> pg_backend_pid()"), { timeout: 120_000 }).toHaveLength(1);
  child.kill("SIGKILL");
  expect(await applyMigrations(url, folder)).toEqual(["1_slow"]);
  expect(await rowsOf(url, "select id from slow")).toEqual([{ id: 1 }]);
});

test("a trigger's body is not cut at its semicolons", async () => {
  const url = await anEmptyDatabase();
  const folder = await aFolderOfMigrations({
    "1_trigger": "create table part (id int); create function add_one() returns trigger language plpgsql as $$ begin new.id := new.id + 1; return new; end; $$; create trigger add_one before insert on part for each row execute function add_one(); insert into part values (1);",
  });
  await applyMigrations(url, folder);
  expect(await rowsOf(url, "select id from part")).toEqual([{ id: 2 }]);
});
