import { Worker } from "node:worker_threads";
import type { LookMatter, LookResult } from "@/lib/domain/reporting/signals-look";

/** `reckonLook` in a thread of its own, so that mail goes out and reports stay fresh meanwhile. */
export function reckonInThread(matter: LookMatter): Promise<LookResult> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(new URL("./look-thread.mjs", import.meta.url), { workerData: matter });
    thread.once("message", resolve);
    thread.once("error", reject);
    thread.once("exit", (code) => reject(new Error(`reckonInThread needs its thread to answer; it ended with ${code}`)));
  });
}
