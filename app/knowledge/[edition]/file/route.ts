import { fileHeaders, plainAnswer } from "@/app/api/file-answer";
import { currentStaff } from "@/lib/access/staff";
import { exportEdition } from "@/lib/operations/exchange-edition";

/** An edition as a file of JSON, for whoever may read it. */
export async function GET(_request: Request, { params }: { params: Promise<{ edition: string }> }): Promise<Response> {
  const { edition } = await params;
  const actor = await currentStaff();
  if (!actor || !/^[1-9]\d{0,5}$/.test(edition)) return plainAnswer(404, "Not found.");
  const exported = await exportEdition(actor, Number(edition));
  if (!exported.ok) return exported.reason === "not-allowed" ? plainAnswer(403, "Your role may not see the knowledge.") : plainAnswer(404, "Not found.");
  return new Response(exported.json, { headers: fileHeaders(`edition-${edition}.json`, "application/json; charset=utf-8") });
}
