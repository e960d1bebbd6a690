import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type FileTable, fileTable, rounded } from "@/lib/files/table";
import type { SelectionFilter } from "@/lib/inputs/report-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { loadCausesOfASelection } from "./load-causes-of-a-selection";
import { type Refusal, refuse } from "./refusal";

const COLUMNS = {
  cause: "cause",
  name: "name",
  primary: "primary",
  decided: "of decided",
  share: "share",
  shareLower: "share, lower 90 % limit",
  shareUpper: "share, upper 90 % limit",
  shipped: "shipped",
  rate: "per 1000 shipped",
  rateLower: "per 1000, lower 90 % limit",
  rateUpper: "per 1000, upper 90 % limit",
  contributing: "contributed to another",
} as const;

/** The causes behind one cell, row or column as a table. */
export async function exportCausesOfASelection(actor: StaffActor, filter: SelectionFilter): Promise<{ ok: true; table: FileTable } | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const loaded = await loadCausesOfASelection(actor, filter);
  if (!loaded.ok) return loaded;
  const { figures, causes } = loaded.report;
  const rows = causes.map(({ cause, primary, share, rate, contributing }) => ({
    cause,
    name: loaded.causes.find(({ code }) => code === cause)?.name ?? null,
    primary,
    decided: figures.decided,
    share: rounded(share.estimate),
    shareLower: rounded(share.lower),
    shareUpper: rounded(share.upper),
    shipped: rounded(figures.shipped),
    rate: rounded(rate?.estimate),
    rateLower: rounded(rate?.lower),
    rateUpper: rounded(rate?.upper),
    contributing,
  }));
  return { ok: true, table: fileTable(COLUMNS, rows) };
}
