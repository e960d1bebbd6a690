import "server-only";
import { fileAnswer, plainAnswer, readFormat } from "@/app/api/file-answer";
import type { StaffActor } from "@/lib/access/actors";
import { currentStaff } from "@/lib/access/staff";
import type { Period } from "@/lib/domain/reporting/month";
import type { FileTable } from "@/lib/files/table";
import type { ReadFilter } from "@/lib/inputs/report-filter";
import type { UnknownInFilter } from "@/lib/operations/check-report-filter";
import type { Refusal } from "@/lib/operations/refusal";

/** What of a filter tells one saved file from another. */
type Named = Period & Partial<Readonly<Record<"table" | "kit" | "revision" | "batch" | "cause", string | undefined>>>;

/**
 * Answers a request for a report as a file, CSV or with `format=xlsx` a workbook: 400 with a plain message where the
 * filter cannot be followed, 403 where the role may not see reports, and for a stranger the 404 of what does not exist.
 */
export async function answerWithFile<Filter extends Named>(
  request: Request,
  name: string,
  read: ReadFilter<Filter>,
  exportTable: (actor: StaffActor, filter: Filter) => Promise<{ ok: true; table: FileTable } | Refusal | UnknownInFilter>,
): Promise<Response> {
  const actor = await currentStaff();
  if (!actor) return plainAnswer(404, "Not found.");
  const format = readFormat(request);
  if (!format) return plainAnswer(400, "format: A file is csv or xlsx.");
  if (!read.ok) {
    const messages = Object.entries(read.errors).map(([field, message]) => `${field}: ${message}`);
    return plainAnswer(400, messages.join("\n"));
  }
  const exported = await exportTable(actor, read.filter);
  if (!exported.ok) return exported.reason === "not-allowed" ? plainAnswer(403, "Your role may not see reports.") : plainAnswer(400, `${exported.field}: There is no such ${exported.field}.`);
  const { from, to, table, kit, revision, batch, cause } = read.filter;
  const told = [name, table, kit, revision, batch, cause].flatMap((part) => part?.replace(/[^\w-]+/g, "-") ?? []);
  return fileAnswer(`${[...new Set(told)].join("-")}-${from}-to-${to}`, format, exported.table);
}

/** The parameters of an address as a page gets them. */
export function parametersOf(request: Request): Readonly<Record<string, string>> {
  // Of a repeated parameter the first counts, as on the pages.
  return Object.fromEntries([...new URL(request.url).searchParams].reverse());
}
