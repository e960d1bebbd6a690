import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { currentStaff } from "@/lib/access/staff";
import type { Period } from "@/lib/domain/reporting/month";
import type { ReadFilter } from "@/lib/inputs/report-filter";
import type { UnknownInFilter } from "@/lib/operations/check-report-filter";
import type { Refusal } from "@/lib/operations/refusal";

/**
 * Answers a request for a report as a file: 400 with a plain message where the filter cannot be followed, 403 where the
 * role may not see reports, and for a stranger the 404 of what does not exist.
 */
export async function answerWithFile<Filter extends Period>(
  name: string,
  read: ReadFilter<Filter>,
  exportFile: (actor: StaffActor, filter: Filter) => Promise<{ ok: true; csv: string } | Refusal | UnknownInFilter>,
): Promise<Response> {
  const actor = await currentStaff();
  if (!actor) return plain(404, "Not found.");
  if (!read.ok) {
    const messages = Object.entries(read.errors).map(([field, message]) => `${field}: ${message}`);
    return plain(400, messages.join("\n"));
  }
  const exported = await exportFile(actor, read.filter);
  if (!exported.ok) return exported.reason === "not-allowed" ? plain(403, "Your role may not see reports.") : plain(400, `${exported.field}: There is no such ${exported.field}.`);
  return new Response(exported.csv, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="${name}-${read.filter.from}-to-${read.filter.to}.csv"`,
      "cache-control": "private, no-store",
    },
  });
}

function plain(status: number, message: string): Response {
  return new Response(`${message}\n`, { status, headers: { "content-type": "text/plain; charset=utf-8", "cache-control": "private, no-store" } });
}

/** The parameters of an address as a page gets them. */
export function parametersOf(request: Request): Readonly<Record<string, string>> {
  // Of a repeated parameter the first counts, as on the pages.
  return Object.fromEntries([...new URL(request.url).searchParams].reverse());
}
