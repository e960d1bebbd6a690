import { Logger } from "graphile-worker";
import { log } from "@/lib/log";

/**
 * What troubles graphile-worker, as lines of our log. Where it tells of an error its sentence quotes that error, and a mail
 * server's quotes addresses: of an error only name and code are kept. A sentence without an error is its own.
 */
export const workerLog = new Logger(({ label }) => (level, sentence, meta) => {
  if (level !== "error" && level !== "warning") return;
  const { job, ...about } = (meta ?? {}) as { job?: { id: string; task_identifier: string; attempts: number; max_attempts: number }; failure?: true; error?: unknown; fatalError?: unknown };
  const what = about.failure && job ? { event: "job-failed", task: job.task_identifier, jobId: job.id, attempt: job.attempts, of: job.max_attempts } : { event: "worker-troubled", part: label };
  log[level === "error" ? "error" : "warn"]({ ...what, ...(meta ? namesOf(about.error ?? about.fatalError) : { sentence }) });
});

function namesOf(error: unknown): { error: string; code?: string } {
  if (!(error instanceof Error)) return { error: "unknown" };
  return { error: error.name, ...("code" in error ? { code: String(error.code) } : {}) };
}
