import "server-only";
import { log } from "@/lib/log";

/**
 * Does the worker's work with each claim by itself. One with which it fails is told in the log and passed over until the
 * next look: it must not hold up all that stand behind it, look after look.
 */
export async function eachByItself<T extends { claimId: string }>(all: readonly T[], work: (one: T) => Promise<void>): Promise<void> {
  for (const one of all) {
    await work(one).catch((error: unknown) => log.error({ event: "claim-passed-over", claimId: one.claimId, error: error instanceof Error ? error.name : "unknown" }));
  }
}
