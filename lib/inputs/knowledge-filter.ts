import { z } from "zod";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import { firstValues, type QueryParameters } from "./query";
import { lineSchema } from "./text";

const LONGEST_SEARCH = 100;

/** What an edition's page shows, from its address. What is not understood is passed over. */
const knowledgeFilterSchema = z.object({
  q: z.optional(lineSchema(LONGEST_SEARCH)).catch(undefined),
  part: z
    .enum(Object.keys(OIL_PATH_PARTS) as [OilPathPart, ...OilPathPart[]])
    .optional()
    .catch(undefined),
  attribution: z.enum(ATTRIBUTIONS).optional().catch(undefined),
});
export type KnowledgeFilter = z.output<typeof knowledgeFilterSchema>;

export function readKnowledgeFilter(query: QueryParameters): KnowledgeFilter {
  return knowledgeFilterSchema.parse(firstValues(query));
}

/** Whether a cause or a finding is of this part and says this word, or has this code. */
export function suits(one: { code: string; name: string; part: OilPathPart }, { q, part }: KnowledgeFilter): boolean {
  const word = q?.toLowerCase() ?? "";
  const says = [one.code, one.name, "advice" in one ? one.advice : "", "question" in one ? one.question : ""].join(" ").toLowerCase();
  return (!part || one.part === part) && says.includes(word);
}
