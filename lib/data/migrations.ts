import "server-only";
import { readdir, readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { PrismaPg } from "@prisma/adapter-pg";
import { bindMigrationAwareSqlAdapterFactory, ColumnTypeEnum, type SqlMigrationAwareDriverAdapterFactory, type SqlQuery } from "@prisma/driver-adapter-utils";
import type { MigrationList, SchemaEngine, SchemasContainer } from "@prisma/schema-engine-wasm";
import pg from "pg";
import { LOCKS } from "./advisory-locks";
import { appliedNames, MIGRATIONS_FOLDER, migrationNames } from "./applied-migrations";

const SCHEMA_FOLDER = path.resolve("prisma/schema");
const EVERYTHING = { externalTables: [], externalEnums: [] };

/**
 * Applies what is missing of prisma/migrations, each in a transaction of its own together with its row in
 * `_prisma_migrations`: a process killed in the middle leaves nothing half done. Two processes starting together take
 * turns. A statement waits one second at most for a table that others use, then fails, rather than hold up everybody
 * behind it.
 *
 * @returns the names of the migrations that were applied now
 * @throws what the database refused
 */
export async function applyMigrations(databaseUrl: string, folder = MIGRATIONS_FOLDER): Promise<string[]> {
  return withPool(databaseUrl, async (pool) => {
    await pool.query("select pg_advisory_lock($1)", [LOCKS.migrations]);
    await pool.query("set lock_timeout = '1s'");
    const applied: string[] = [];
    const list = await readMigrations(folder);
    const done = new Set(await appliedNames(pool));
    const { migrationDirectories } = list;
    for (const [index, { path: name }] of migrationDirectories.entries()) {
      if (done.has(name)) continue;
      await pool.query("begin");
      try {
        const upTo = { ...list, migrationDirectories: migrationDirectories.slice(0, index + 1) };
        await withEngine(pool, (engine) => engine.applyMigrations({ migrationsList: upTo, filters: EVERYTHING }));
        await pool.query("commit");
      } catch (error) {
        await pool.query("rollback");
        throw new Error(`migration ${name} was refused and left nothing behind`, { cause: error });
      }
      applied.push(name);
    }
    return applied;
  });
}

/**
 * The SQL that leads from the migrations to the schema, empty when they agree. What Prisma's schema cannot say (checks,
 * partial indexes, triggers) is neither missed nor dropped.
 *
 * @param serverUrl a database of a server where databases may be created: the migrations are played into a scratch one
 */
export async function migrationDifference(serverUrl: string): Promise<string> {
  const schema = await readSchema();
  const { stdout } = await withPool(serverUrl, async (pool) =>
    withEngine(pool, async (engine) =>
      engine.diff({
        from: { tag: "migrations", ...(await readMigrations(MIGRATIONS_FOLDER)) },
        to: { tag: "schemaDatamodel", ...schema },
        script: true,
        exitCode: null,
        filters: EVERYTHING,
      }),
    ),
  );
  const script = stdout?.trim() ?? "";
  return script.startsWith("-- This is an empty migration") ? "" : script;
}

/** One connection: the engine's own statements then fall into the transaction that is open on it. */
async function withPool<T>(url: string, work: (pool: pg.Pool) => Promise<T>): Promise<T> {
  const pool = new pg.Pool({ connectionString: url, max: 1, idleTimeoutMillis: 0 });
  try {
    return await work(pool);
  } finally {
    await pool.end();
  }
}

async function readMigrations(folder: string): Promise<MigrationList> {
  const names = await migrationNames(folder);
  return {
    baseDir: folder,
    lockfile: { path: "migration_lock.toml", content: 'provider = "postgresql"\n' },
    shadowDbInitScript: "",
    migrationDirectories: await Promise.all(
      names.map(async (name) => ({
        path: name,
        migrationFile: { path: "migration.sql", content: { tag: "ok" as const, value: await readFile(path.join(folder, name, "migration.sql"), "utf8") } },
      })),
    ),
  };
}

async function readSchema(): Promise<SchemasContainer> {
  const names = (await readdir(SCHEMA_FOLDER)).filter((name) => name.endsWith(".prisma")).sort();
  return { files: await Promise.all(names.map(async (name) => ({ path: name, content: await readFile(path.join(SCHEMA_FOLDER, name), "utf8") }))) };
}

async function withEngine<T>(pool: pg.Pool, work: (engine: SchemaEngine) => Promise<T>): Promise<T> {
  const { SchemaEngine } = await loadEngine();
  const datamodels = (await readSchema()).files.map(({ path: name, content }): [string, string] => [name, content]);
  let refusal: unknown;
  const stopListening: (() => Promise<void>)[] = [];
  const adapter = migrationAdapter(
    pool,
    (error) => {
      refusal = error;
    },
    (stop) => stopListening.push(stop),
  );
  const engine = await SchemaEngine.new({ datamodels }, () => {}, bindMigrationAwareSqlAdapterFactory(adapter));
  try {
    return await work(engine);
  } catch (error) {
    // The engine says only that something was refused; the database said what and where.
    throw refusal ?? error;
  } finally {
    engine.free();
    // The engine does not: each migration would leave a listener with the pool.
    for (const stop of stopListening) await stop();
  }
}

/**
 * The stock adapter, but for three faults that matter here: it cuts a script at every semicolon, even in the body of a
 * trigger; it builds its scratch database with a connection string that leads back to the real one; and it cannot read
 * the one-letter columns of the catalogue.
 */
function migrationAdapter(pool: pg.Pool, onRefusal: (error: unknown) => void, onConnected: (stopListening: () => Promise<void>) => void): SqlMigrationAwareDriverAdapterFactory {
  const connect = async (to: pg.Pool, dispose: () => Promise<void>) => {
    const readable = withReadableLetters(to);
    const adapter = await new PrismaPg(readable.pool).connect();
    const queryRaw = adapter.queryRaw.bind(adapter);
    onConnected(adapter.dispose.bind(adapter));
    return Object.assign(adapter, {
      async queryRaw(query: SqlQuery) {
        const result = await queryRaw(query);
        for (const column of readable.letters.get(result.rows) ?? []) result.columnTypes[column] = ColumnTypeEnum.Character;
        return result;
      },
      async executeScript(script: string) {
        await to.query(script).catch((error: unknown) => {
          onRefusal(error);
          throw error;
        });
      },
      dispose,
    });
  };
  return {
    provider: "postgres",
    adapterName: "@prisma/adapter-pg",
    connect: () => connect(pool, async () => {}),
    async connectToShadowDb() {
      const name = `scratch_${globalThis.crypto.randomUUID()}`;
      await pool.query(`create database "${name}"`);
      const url = new URL(pool.options.connectionString ?? "");
      url.pathname = `/${name}`;
      const scratch = new pg.Pool({ connectionString: url.href, max: 1 });
      return connect(scratch, async () => {
        await scratch.end();
        await pool.query(`drop database "${name}" with (force)`);
      });
    },
  };
}

/** Passes PostgreSQL's `"char"` (type 18) off as `character` (1042), and keeps account of where. */
function withReadableLetters(pool: pg.Pool): { pool: pg.Pool; letters: WeakMap<object, number[]> } {
  const letters = new WeakMap<object, number[]>();
  const query = async (...args: [pg.QueryConfig]) => {
    const result = await pool.query(...args);
    letters.set(
      result.rows,
      result.fields.flatMap((field, column) => (field.dataTypeID === 18 ? [column] : [])),
    );
    for (const field of result.fields) if (field.dataTypeID === 18) field.dataTypeID = 1042;
    return result;
  };
  return { pool: new Proxy(pool, { get: (target, name) => (name === "query" ? query : Reflect.get(target, name)) }), letters };
}

let loaded: Promise<typeof import("@prisma/schema-engine-wasm")> | undefined;

/** The package's own entry imports its .wasm file, which Node 20 cannot; so it is put together here. */
function loadEngine(): Promise<typeof import("@prisma/schema-engine-wasm")> {
  loaded ??= (async () => {
    const glue = await import("@prisma/schema-engine-wasm/schema_engine_bg");
    const entry = createRequire(import.meta.url).resolve("@prisma/schema-engine-wasm");
    const bytes = await readFile(path.join(path.dirname(entry), "schema_engine_bg.wasm"));
    const { instance } = await WebAssembly.instantiate(bytes, { "./schema_engine_bg.js": glue as unknown as WebAssembly.ModuleImports });
    glue.__wbg_set_wasm(instance.exports);
    (instance.exports["__wbindgen_start"] as () => void)();
    return glue;
  })();
  return loaded;
}
