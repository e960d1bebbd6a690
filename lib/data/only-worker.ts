import "server-only";
import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { LOCKS } from "./advisory-locks";

const AGAIN_MS = 1000;

/**
 * Waits until no other worker runs on this database, then frees the jobs that one which was killed had taken: the queue by
 * itself does so after four hours only. The hold ends with the process, however that ends; when only its connection breaks,
 * as when the database starts anew, it is taken again.
 *
 * @returns gives the hold up
 * @throws what the database refused at first
 */
export async function becomeTheWorker(): Promise<() => Promise<void>> {
  let client = connection();
  let isGivenUp = false;
  await hold();
  await client.query("SELECT graphile_worker.force_unlock_workers(ARRAY(SELECT DISTINCT locked_by FROM graphile_worker.jobs WHERE locked_by IS NOT NULL))");
  return () => {
    isGivenUp = true;
    return client.end();
  };

  async function hold(): Promise<void> {
    await client.connect();
    await client.query("SELECT pg_advisory_lock($1)", [LOCKS.worker]);
    client.once("end", () => void holdAgain());
  }

  async function holdAgain(): Promise<void> {
    if (!isGivenUp) log.warn({ event: "worker-hold-lost" });
    while (!isGivenUp) {
      client = connection();
      try {
        return await hold();
      } catch {
        await client.end();
        await pause(AGAIN_MS);
      }
    }
  }
}

function connection(): pg.Client {
  // Of a machine that vanished the server learns by asking: within a minute, not after two hours.
  const client = new pg.Client({ connectionString: env.DATABASE_URL, options: "-c tcp_keepalives_idle=30 -c tcp_keepalives_interval=10 -c tcp_keepalives_count=3" });
  // What breaks is told by its end.
  return client.on("error", () => {});
}
