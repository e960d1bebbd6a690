import { setTimeout as wait } from "node:timers/promises";
import { refreshReportCells } from "@/lib/data/report-cells";
import { log } from "@/lib/log";

/** Between two looks at what has changed; a change is in the reports within twice this, unless thousands come at once. */
const PAUSE_MS = 1500;

/**
 * Brings the cells of the reports up to date, over and over until it is stopped. Not a job of the queue: a job for each
 * change would make those who change things wait for one another at its row.
 *
 * @returns what stops it, once what has been begun is kept
 */
export function keepReportsFresh(): () => Promise<void> {
  const stopping = new AbortController();
  const loop = async () => {
    while (!stopping.signal.aborted) {
      const claims = await refreshReportCells().catch((error: unknown) => {
        log.error({ event: "report-cells-not-refreshed", error: error instanceof Error ? error.name : "unknown" });
        return null;
      });
      if (!claims) await wait(PAUSE_MS, undefined, { signal: stopping.signal }).catch(() => {});
    }
  };
  const ended = loop();
  return () => {
    stopping.abort();
    return ended;
  };
}
