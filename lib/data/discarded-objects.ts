import "server-only";
import type { Db } from "./client";

/** The worker waits e^n seconds after the n-th try, six hours at most: these tries take four days. */
const TRIES = 25;

/**
 * Has the worker remove these objects once this transaction is kept. Removed by the process that deletes their rows, they
 * would stay for good, and nobody would know of them, where it is killed in between or the store does not answer.
 */
export async function discardObjects(db: Db, keys: readonly string[]): Promise<void> {
  if (keys.length > 0) await db.$executeRaw`SELECT graphile_worker.add_job('remove-objects', json_build_object('keys', ${[...keys]}::text[]), max_attempts := ${TRIES})`;
}
