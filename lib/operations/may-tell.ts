import "server-only";
import type { FindingDefinition, Observer } from "@/lib/domain/diagnosis/knowledge";

/** Whether this observer may be advised a check, and tell of it unasked: free, and not with the engine running. Part of other operations. */
export function mayTell({ observers, cost, runsEngine }: FindingDefinition, observer: Observer): boolean {
  return observers.includes(observer) && cost === "none" && !runsEngine;
}
