import { runOnce } from "graphile-worker";
import { vi } from "vitest";
import { connectionPool } from "@/lib/data/client";
import { removeObjects } from "@/lib/jobs/remove-objects";
import { workerLog } from "@/lib/jobs/worker-log";

/** Does what the worker does with objects that were discarded. It returns before the end of a job is written: that is waited for. */
export async function removeDiscarded(): Promise<void> {
  await runOnce({ pgPool: connectionPool(), logger: workerLog, taskList: { "remove-objects": removeObjects } });
  await vi.waitUntil(async () => (await connectionPool().query("SELECT FROM graphile_worker._private_jobs WHERE locked_at IS NOT NULL")).rowCount === 0, { timeout: 120_000 });
}
