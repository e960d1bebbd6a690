import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { inTransaction } from "@/lib/data/client";
import { countOtherFilters, deleteSavedFilter, findStartFilter, keepSavedFilter, lockFiltersOf, updateStartFilter } from "@/lib/data/saved-filters";
import { messagesOf } from "@/lib/inputs/intake";
import { queueAddress, readQueueFilter } from "@/lib/inputs/queue-filter";
import { savedFilterSchema } from "@/lib/inputs/saved-filter";
import { type Refusal, refuse } from "./refusal";

export type KeepFilterResult = { ok: true; address: string } | Refusal | { ok: false; reason: "refused"; messages: Record<string, string> } | { ok: false; reason: "too-many" };

/** So many are a line to read at a glance. */
const MOST_FILTERS = 12;

/**
 * Keeps a view of the queue under a name, for the person alone. A name used again replaces what it named. It is a
 * convenience of theirs and changes no claim, so the audit trail does not tell of it.
 */
export async function keepFilter(actor: StaffActor, typed: { name: string; query: string }): Promise<KeepFilterResult> {
  const refused = await refuse(actor, "see the queue");
  if (refused) return refused;
  const parsed = savedFilterSchema.safeParse(typed);
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const { personId } = actor;
  // Read and written again, so that only what the queue understands is kept.
  const address = queueAddress(readQueueFilter(Object.fromEntries(new URLSearchParams(parsed.data.query))));
  return inTransaction(async (db): Promise<KeepFilterResult> => {
    await lockFiltersOf(db, personId);
    if ((await countOtherFilters(db, personId, parsed.data.name)) >= MOST_FILTERS) return { ok: false, reason: "too-many" };
    await keepSavedFilter(db, { personId, name: parsed.data.name, query: address.split("?")[1] ?? "" });
    return { ok: true, address };
  });
}

/** Removes a filter of one's own. */
export async function removeFilter(actor: StaffActor, id: string): Promise<{ ok: true } | Refusal> {
  const refused = await refuse(actor, "see the queue");
  if (refused) return refused;
  await inTransaction((db) => deleteSavedFilter(db, actor.personId, id));
  return { ok: true };
}

/** Chooses the filter that opens after signing in, or none. */
export async function startWithFilter(actor: StaffActor, id: string | null): Promise<{ ok: true } | Refusal> {
  const refused = await refuse(actor, "see the queue");
  if (refused) return refused;
  await inTransaction(async (db) => {
    await lockFiltersOf(db, actor.personId);
    await updateStartFilter(db, actor.personId, id);
  });
  return { ok: true };
}

/** Address of the view that a person starts with, or null. Part of signing in, which has shown who it is. */
export async function startAddress(personId: string): Promise<string | null> {
  const query = await findStartFilter(personId);
  return query === null ? null : query === "" ? "/queue" : `/queue?${query}`;
}
