import { spawn } from "node:child_process";
import { once } from "node:events";
import { runOnce } from "graphile-worker";
import { afterEach, expect, test, vi } from "vitest";
import { connectionPool } from "@/lib/data/client";
import { becomeTheWorker } from "@/lib/data/only-worker";
import { env } from "@/lib/env";
import { workerLog } from "@/lib/jobs/worker-log";

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
});

/** A worker of its own process that takes the job and never ends it. */
async function aWorkerAtWork(task: string) {
  const program = `
    import { run } from "graphile-worker";
    import { becomeTheWorker } from "@/lib/data/only-worker";
    await becomeTheWorker();
    await run({ connectionString: process.env.DATABASE_URL, pollInterval: 100, noHandleSignals: true, taskList: { ${JSON.stringify(task)}: () => new Promise(() => {}) } });`;
  const worker = spawn(process.execPath, ["--conditions=react-server", "--import", "tsx", "--input-type=module", "--eval", program], { env: { ...process.env, DATABASE_URL: env.DATABASE_URL }, stdio: "ignore" });
  ends.push(() => void worker.kill("SIGKILL"));
  await expect.poll(() => takenBy(task), { timeout: 120_000 }).toEqual([expect.any(String)]);
  return worker;
}

/** The processes of the database that have an advisory lock in it. */
const holders = async () => (await connectionPool().query<{ pid: number }>("SELECT l.pid FROM pg_locks l JOIN pg_database d ON d.oid = l.database WHERE locktype = 'advisory' AND granted AND datname = current_database()")).rows.map(({ pid }) => pid);
const takenBy = async (task: string) => (await connectionPool().query<{ locked_by: string | null }>("SELECT locked_by FROM graphile_worker.jobs WHERE task_identifier = $1", [task])).rows.map((row) => row.locked_by);

test("what a killed worker was doing is done by the next at once, and never while it lives", async () => {
  const task = "stays-with-its-worker";
  await connectionPool().query("SELECT graphile_worker.add_job($1)", [task]);
  const worker = await aWorkerAtWork(task);
  const next = becomeTheWorker();
  expect(await Promise.race([next.then(() => "holds"), new Promise((resolve) => setTimeout(resolve, 1000, "waits"))])).toBe("waits");
  expect(await takenBy(task)).toEqual([expect.any(String)]);

  worker.kill("SIGKILL");
  await once(worker, "exit");
  ends.push(await next);
  expect(await takenBy(task)).toEqual([null]);
  const done = vi.fn();
  await runOnce({ pgPool: connectionPool(), logger: workerLog, taskList: { [task]: done } });
  expect(done).toHaveBeenCalledTimes(1);
});

test("a worker whose connection broke takes its hold again", async () => {
  ends.push(await becomeTheWorker());
  const [first] = await holders();
  await connectionPool().query("SELECT pg_terminate_backend($1)", [first]);
  await expect.poll(async () => (await holders()).filter((pid) => pid !== first), { timeout: 120_000 }).toEqual([expect.any(Number)]);
});

test("the hold is of a number that no trigger waits for", async () => {
  ends.push(await becomeTheWorker());
  const { rows } = await connectionPool().query("SELECT proname FROM pg_locks l JOIN pg_database d ON d.oid = l.database JOIN pg_proc ON prosrc LIKE '%advisory%' || ((classid::bigint << 32) + objid::bigint) || '%' WHERE locktype = 'advisory' AND datname = current_database()");
  expect(rows).toEqual([]);
});
