import { fileAnswer, plainAnswer, readFormat } from "@/app/api/file-answer";
import { IMPORT_FIELDS } from "@/lib/domain/imports/fields";
import { currentStaff } from "@/lib/access/staff";
import { fileTable } from "@/lib/files/table";
import { importKindSchema } from "@/lib/inputs/import";

/** A small file with the very columns that a kind of figures has; it tells nothing of ours. */
export async function GET(request: Request): Promise<Response> {
  if (!(await currentStaff())) return plainAnswer(404, "Not found.");
  const kind = importKindSchema.safeParse(new URL(request.url).searchParams.get("kind"));
  const format = readFormat(request);
  if (!kind.success || !format) return plainAnswer(400, kind.success ? "format: A file is csv or xlsx." : "kind: There is no such kind of figures.");
  const fields = IMPORT_FIELDS[kind.data];
  const columns = Object.fromEntries(fields.map(({ key, name }) => [key, name]));
  const rows = [0, 1].map((row) => Object.fromEntries(fields.map(({ key, examples }) => [key, examples[row] ?? null])));
  return fileAnswer(`sample-${kind.data.replace("_", "-")}`, format, fileTable(columns, rows));
}
