import { run } from "graphile-worker";
import { connectionPool, disconnect } from "@/lib/data/client";
import { becomeTheWorker } from "@/lib/data/only-worker";
import { log } from "@/lib/log";
import { runDryRun } from "@/lib/operations/dry-run";
import { carryOutImports } from "@/lib/operations/carry-out-imports";
import { learnEdition } from "@/lib/operations/learn-edition";
import { lookForSignals } from "@/lib/operations/look-for-signals";
import { remindOfOpenChecks } from "@/lib/operations/remind-of-checks";
import { purgeExpired } from "@/lib/data/purge";
import { keepReturnDates } from "@/lib/operations/keep-return-dates";
import { keepReportsFresh } from "./keep-reports-fresh";
import { reckonInThread } from "./reckon-in-thread";
import { removeObjects } from "./remove-objects";
import { sendQueuedMail } from "./send-mail";
import { workerLog } from "./worker-log";

const giveUpTheHold = await becomeTheWorker();
const runner = await run({
  pgPool: connectionPool(),
  logger: workerLog,
  concurrency: 2,
  pollInterval: 2000,
  taskList: {
    "send-mail": async (payload) => {
      await sendQueuedMail(idOf(payload, "mailId"));
    },
    "remove-objects": removeObjects,
    "dry-run": async (payload) => {
      await runDryRun(idOf(payload, "trialId"));
    },
    "run-imports": async () => {
      await carryOutImports();
    },
    "learn-edition": async (payload) => {
      await learnEdition(idOf(payload, "personId"));
    },
    "look-for-signals": async (payload) => {
      await lookForSignals({ isFormal: isSet(payload, "isFormal"), reckon: reckonInThread });
    },
    "remind-of-checks": async () => {
      log.info({ event: "reminded-of-checks", ...(await remindOfOpenChecks()) });
    },
    "keep-return-dates": async () => {
      log.info({ event: "return-dates-kept", ...(await keepReturnDates(new Date())) });
    },
    "purge-expired": async () => {
      log.info({ event: "purged", ...(await purgeExpired(new Date())) });
    },
  },
  // A file whose worker died is taken up again by the next minute's look.
  crontab: "7 8-18 * * * remind-of-checks ?max=1\n23 * * * * keep-return-dates ?max=1\n17 3 * * * purge-expired\n43 3 * * * look-for-signals\n* * * * * run-imports ?max=1",
});
// What came in while no worker ran is looked at without waiting for the night.
await runner.addJob("look-for-signals", {}, { jobKey: "look-for-signals:between", maxAttempts: 3 });
const stopRefreshing = keepReportsFresh();
log.info({ event: "worker-started" });
await runner.promise;
await stopRefreshing();
await giveUpTheHold();
await disconnect();

function idOf(payload: unknown, name: string): string {
  const id = typeof payload === "object" && payload !== null ? (payload as Readonly<Record<string, unknown>>)[name] : undefined;
  if (typeof id === "string") return id;
  throw new Error(`this job needs a payload with ${name}`);
}

function isSet(payload: unknown, name: string): boolean {
  return typeof payload === "object" && payload !== null && (payload as Readonly<Record<string, unknown>>)[name] === true;
}
