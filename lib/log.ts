import pino from "pino";
import { env } from "@/lib/env";

/** One JSON line an event on standard output. Codes, ids and figures only: never a person's data. */
export const log = pino({
  level: env.LOG_LEVEL,
  base: null,
  timestamp: pino.stdTimeFunctions.isoTime,
  formatters: { level: (label) => ({ level: label }) },
});
