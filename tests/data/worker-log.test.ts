import { runOnce } from "graphile-worker";
import { expect, test, vi } from "vitest";
import { connectionPool } from "@/lib/data/client";
import { workerLog } from "@/lib/jobs/worker-log";
import { log } from "@/lib/log";

test("a job that fails leaves one line with the error's name and code, and never its words", async () => {
  const logged = [vi.spyOn(log, "error").mockReturnValue(), vi.spyOn(log, "warn").mockReturnValue()];
  const printed = [vi.spyOn(console, "error").mockReturnValue(), vi.spyOn(console, "warn").mockReturnValue()];
  await connectionPool().query("SELECT graphile_worker.add_job('refuse')");
  await runOnce({
    pgPool: connectionPool(),
    logger: workerLog,
    taskList: {
      refuse: () => {
        throw Object.assign(new TypeError("550 no mailbox ada@example.com"), { code: "EENVELOPE" });
      },
    },
  });
  const lines = logged.flatMap(({ mock }) => mock.calls.flat());
  const said = printed.flatMap(({ mock }) => mock.calls);
  for (const spy of [...logged, ...printed]) spy.mockRestore();
  expect(lines).toEqual([expect.objectContaining({ event: "job-failed", task: "refuse", jobId: expect.any(String), attempt: 1, of: 25, error: "TypeError", code: "EENVELOPE" })]);
  expect(JSON.stringify(lines)).not.toContain("ada@example.com");
  expect(said).toEqual([]);
});
