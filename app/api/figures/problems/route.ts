import { fileAnswer, plainAnswer, readFormat } from "@/app/api/file-answer";
import { currentStaff } from "@/lib/access/staff";
import { importIdSchema } from "@/lib/inputs/import";
import { exportImportProblems } from "@/lib/operations/load-import";

/** What was wrong with the rows of a file, to send to whoever made it. */
export async function GET(request: Request): Promise<Response> {
  const actor = await currentStaff();
  const id = importIdSchema.safeParse(new URL(request.url).searchParams.get("file"));
  if (!actor || !id.success) return plainAnswer(404, "Not found.");
  const format = readFormat(request);
  if (!format) return plainAnswer(400, "format: A file is csv or xlsx.");
  const exported = await exportImportProblems(actor, id.data);
  if (!exported.ok) return exported.reason === "not-allowed" ? plainAnswer(403, "Your role may not bring in figures.") : plainAnswer(404, "Not found.");
  return fileAnswer("rows-to-correct", format, exported.table);
}
