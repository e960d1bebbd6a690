import { z } from "zod";
import { QUEUE_MARKS, QUEUE_SORTS } from "@/lib/domain/claims/queue-order";
import { CLAIM_STAGES } from "@/lib/domain/claims/stages";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { LONGEST } from "@/lib/domain/intake/fields";
import { firstValues, type QueryParameters } from "./query";
import { lineSchema } from "./text";

/** The claims of the queue in its address. What is not understood is passed over: a list is never an error page. */
export const queueFilterSchema = z.object({
  /** Left out: all that wait. */
  stage: z.enum(["open", "ended", ...CLAIM_STAGES.filter((stage) => stage !== "draft")]).optional().catch(undefined),
  attribution: z.enum(ATTRIBUTIONS).optional().catch(undefined),
  kit: z.optional(lineSchema(LONGEST.code)).catch(undefined),
  who: z.enum(["mine", "nobody"]).optional().catch(undefined),
  mark: z.enum(QUEUE_MARKS).optional().catch(undefined),
  sort: z.enum(QUEUE_SORTS).catch("risk"),
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
});
export type QueueFilter = z.output<typeof queueFilterSchema>;

/** The filter from an address as Next gives it. */
export function readQueueFilter(query: QueryParameters): QueueFilter {
  return queueFilterSchema.parse(firstValues(query));
}

/** The address of a queue: only what differs from the plain queue is named. */
export function queueAddress(filter: QueueFilter, change: Partial<QueueFilter> = {}): string {
  return withQuery("/queue", queryOf({ ...filter, page: 1, ...change }));
}

/** The address of a claim opened from a view of the queue, so that the next one comes from the same view. */
export function claimAddress(claimId: string, filter: QueueFilter): string {
  return withQuery(`/queue/${claimId}`, queryOf({ ...filter, page: 1 }));
}

/** A view in the query of an address; the plain one is empty. */
export function queryOf(filter: QueueFilter): string {
  const plain = queueFilterSchema.parse({});
  const query = new URLSearchParams();
  for (const name of ["stage", "attribution", "kit", "who", "mark", "sort", "page"] as const) {
    const value = filter[name];
    if (value !== undefined && value !== plain[name]) query.set(name, String(value));
  }
  return query.toString();
}

const withQuery = (path: string, query: string) => (query ? `${path}?${query}` : path);
