import { run } from "graphile-worker";
import { connectionPool, disconnect } from "@/lib/data/client";
import { log } from "@/lib/log";
import { purgeExpired } from "@/lib/operations/purge-expired";
import { keepReportsFresh } from "./keep-reports-fresh";
import { sendQueuedMail } from "./send-mail";
import { workerLog } from "./worker-log";

const runner = await run({
  pgPool: connectionPool(),
  logger: workerLog,
  concurrency: 2,
  pollInterval: 2000,
  taskList: {
    "send-mail": async (payload) => {
      await sendQueuedMail(mailIdOf(payload));
    },
    "purge-expired": async () => {
      log.info({ event: "purged", ...(await purgeExpired(new Date())) });
    },
  },
  crontab: "17 3 * * * purge-expired",
});
const stopRefreshing = keepReportsFresh();
log.info({ event: "worker-started" });
await runner.promise;
await stopRefreshing();
await disconnect();

function mailIdOf(payload: unknown): string {
  if (typeof payload === "object" && payload !== null && "mailId" in payload && typeof payload.mailId === "string") return payload.mailId;
  throw new Error("send-mail needs a payload with mailId");
}
