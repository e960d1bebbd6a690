import { runOnce } from "graphile-worker";
import { connectionPool } from "@/lib/data/client";
import { removeObjects } from "@/lib/jobs/remove-objects";
import { workerLog } from "@/lib/jobs/worker-log";

/** Does what the worker does with objects that were discarded. */
export async function removeDiscarded(): Promise<void> {
  await runOnce({ pgPool: connectionPool(), logger: workerLog, taskList: { "remove-objects": removeObjects } });
}
