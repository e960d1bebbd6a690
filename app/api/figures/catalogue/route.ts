import { fileAnswer, plainAnswer, readFormat } from "@/app/api/file-answer";
import { currentStaff } from "@/lib/access/staff";
import { catalogueKindSchema } from "@/lib/inputs/import";
import { exportCatalogue } from "@/lib/operations/export-import-kind";

/** A part of the catalogue, in the very columns in which it can be brought in. */
export async function GET(request: Request): Promise<Response> {
  const actor = await currentStaff();
  if (!actor) return plainAnswer(404, "Not found.");
  const kind = catalogueKindSchema.safeParse(new URL(request.url).searchParams.get("kind"));
  const format = readFormat(request);
  if (!kind.success || !format) return plainAnswer(400, kind.success ? "format: A file is csv or xlsx." : "kind: There is no such part of the catalogue.");
  const exported = await exportCatalogue(actor, kind.data);
  return exported.ok ? fileAnswer(kind.data.replace("_", "-"), format, exported.table) : plainAnswer(403, "Your role may not send out the catalogue.");
}
