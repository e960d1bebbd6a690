import { currentStaff } from "@/lib/access/staff";
import { exportEdition } from "@/lib/operations/exchange-edition";

/** An edition as a file of JSON, for whoever may read it. */
export async function GET(_request: Request, { params }: { params: Promise<{ edition: string }> }): Promise<Response> {
  const { edition } = await params;
  const actor = await currentStaff();
  if (!actor || !/^[1-9]\d{0,5}$/.test(edition)) return plain(404, "Not found.");
  const exported = await exportEdition(actor, Number(edition));
  if (!exported.ok) return exported.reason === "not-allowed" ? plain(403, "Your role may not see the knowledge.") : plain(404, "Not found.");
  return new Response(exported.json, {
    headers: { "content-type": "application/json; charset=utf-8", "content-disposition": `attachment; filename="edition-${edition}.json"`, "cache-control": "private, no-store" },
  });
}

function plain(status: number, message: string): Response {
  return new Response(`${message}\n`, { status, headers: { "content-type": "text/plain; charset=utf-8", "cache-control": "private, no-store" } });
}
