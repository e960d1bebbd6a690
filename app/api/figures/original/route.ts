import { Readable } from "node:stream";
import { fileHeaders, plainAnswer } from "@/app/api/file-answer";
import { currentStaff } from "@/lib/access/staff";
import { importIdSchema } from "@/lib/inputs/import";
import { openImportFile } from "@/lib/operations/load-import";

/** A file of figures as it was sent. */
export async function GET(request: Request): Promise<Response> {
  const actor = await currentStaff();
  const id = importIdSchema.safeParse(new URL(request.url).searchParams.get("file"));
  if (!actor || !id.success) return plainAnswer(404, "Not found.");
  const opened = await openImportFile(actor, id.data);
  if (!opened.ok) return opened.reason === "not-allowed" ? plainAnswer(403, "Your role may not bring in figures.") : plainAnswer(404, "Not found.");
  const stream = Readable.toWeb(opened.content) as ReadableStream;
  return new Response(stream, { headers: fileHeaders("as-sent.csv", "application/octet-stream") });
}
