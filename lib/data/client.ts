import "server-only";
import { PrismaPg } from "@prisma/adapter-pg";
import pg from "pg";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { type Prisma, PrismaClient } from "./generated/client";
import { oneAtATime } from "./one-at-a-time";

/** A transaction in progress, or the client itself: whatever a data function may run on. */
export type Db = Prisma.TransactionClient;

interface Connection {
  pool: pg.Pool;
  prisma: PrismaClient;
}

// Hot reload evaluates this module again and again; the pool must outlive it.
const kept = globalThis as { fitOrFaultConnection?: Connection };

function connect(): Connection {
  const pool = new pg.Pool({ connectionString: env.DATABASE_URL, max: 10 });
  // An idle connection that the server drops is replaced by the next query; unheard, it would end the process.
  pool.on("error", (error) => log.warn({ event: "database-connection-lost", error: error.name }));
  // One in use fails the query that uses it, which is enough.
  pool.on("connect", (client) => client.on("error", () => {}));
  return { pool, prisma: new PrismaClient({ adapter: oneAtATime(new PrismaPg(pool)) }) };
}

function connection(): Connection {
  kept.fitOrFaultConnection ??= connect();
  return kept.fitOrFaultConnection;
}

/** The client for reads and single writes outside a transaction. */
export function database(): Db {
  return connection().prisma;
}

/** The pool underneath, for libraries that speak plain SQL. */
export function connectionPool(): pg.Pool {
  return connection().pool;
}

/** What to do once a transaction is kept, by its client. */
const onceKept = new WeakMap<Db, (() => void)[]>();

/**
 * Runs `work` in one transaction: all of it is kept or none. `work` asks everything through its `db`: with as many
 * transactions open as the pool holds, a query outside of them would wait for one of them to end.
 *
 * @param timeoutMs after which it is rolled back; a person waits for most
 * @throws what `work` throws, after rolling back
 */
export async function inTransaction<T>(work: (db: Db) => Promise<T>, timeoutMs = 15_000): Promise<T> {
  const acts: (() => void)[] = [];
  const result = await connection().prisma.$transaction(
    (db) => {
      onceKept.set(db, acts);
      return work(db);
    },
    { timeout: timeoutMs, maxWait: 10_000 },
  );
  for (const act of acts) act();
  return result;
}

/** Acts when the transaction is kept, and never when it is rolled back; outside a transaction at once. */
export function whenKept(db: Db, act: () => void): void {
  const acts = onceKept.get(db);
  if (acts) acts.push(act);
  else act();
}

/** Closes the pool, so that a command line program or a test can end. */
export async function disconnect(): Promise<void> {
  const open = kept.fitOrFaultConnection;
  delete kept.fitOrFaultConnection;
  await open?.prisma.$disconnect();
  if (open && !open.pool.ended) await open.pool.end();
}

/** Whether an error is a broken uniqueness rule: by code, never by its text. */
export function isUniqueViolation(error: unknown): boolean {
  return typeof error === "object" && error !== null && "code" in error && (error.code === "P2002" || error.code === "23505");
}

/** Whether an error is a reference to something that is not there: by code, never by its text. */
export function isMissingReference(error: unknown): boolean {
  return typeof error === "object" && error !== null && "code" in error && (error.code === "P2003" || error.code === "23503");
}
