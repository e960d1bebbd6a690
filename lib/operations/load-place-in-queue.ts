import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { findPlaceInQueue, type PlaceInQueue } from "@/lib/data/queue";
import type { QueueFilter } from "@/lib/inputs/queue-filter";
import { askerOf } from "./load-queue";
import { type Refusal, refuse } from "./refusal";

/** Where a claim stands in a view of the queue, and which one to work on next: one that nobody else has open. */
export async function loadPlaceInQueue(actor: StaffActor, claimId: string, filter: QueueFilter, now: Date = new Date()): Promise<({ ok: true } & PlaceInQueue) | Refusal> {
  const refused = await refuse(actor, "see the queue", claimId);
  if (refused) return refused;
  return { ok: true, ...(await findPlaceInQueue(claimId, filter, askerOf(filter, actor, await loadEditionInForce(), now))) };
}
