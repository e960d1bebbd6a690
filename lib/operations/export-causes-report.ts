import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { OUTCOME_NAMES, OUTCOMES, type Outcome } from "@/lib/domain/reporting/outcomes";
import { type FileTable, fileTable, rounded } from "@/lib/files/table";
import type { CausesFilter } from "@/lib/inputs/report-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { costColumns } from "./cost-columns";
import { loadCausesReport } from "./load-causes-report";
import { type Refusal, refuse } from "./refusal";

const COLUMNS = {
  shippedFrom: "shipped from",
  shippedTo: "shipped to",
  kit: "kit",
  revision: "revision",
  make: "make",
  model: "model",
  engine: "engine",
  shipped: "shipped",
  sharedOut: "of these shared out",
  claims: "claims",
  rate: "claims per 1000 shipped",
  rateLower: "lower 90 % limit",
  rateUpper: "upper 90 % limit",
  unitMonths: "unit-months in service, estimated",
  serviceRate: "claims per 1000 unit-months",
  serviceLower: "per 1000 unit-months, lower 90 % limit",
  serviceUpper: "per 1000 unit-months, upper 90 % limit",
  expected: "expected claims",
  ratio: "times expected",
  ratioLower: "times expected, lower 90 % limit",
  ratioUpper: "times expected, upper 90 % limit",
  probable: "probable among the undecided, not in any rate",
  ...outcomeColumns((outcome) => (outcome === "undecided" || outcome === "ended" ? OUTCOME_NAMES[outcome] : `laid to ${OUTCOME_NAMES[outcome]}`)),
};

/** The report's cells as a table, one line a cell in which something was shipped or claimed. */
export async function exportCausesReport(actor: StaffActor, filter: CausesFilter): Promise<{ ok: true; table: FileTable } | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const report = await loadCausesReport(actor, filter);
  if (!report.ok) return report;
  const costs = costColumns([report.table.total.costs]);
  const rows = report.table.rows.flatMap((row) =>
    row.cells
      .filter(({ figures }) => figures.shipped > 0 || figures.claims > 0 || figures.probable > 0)
      .map(({ vehicle, figures, comparison }) => ({
        shippedFrom: filter.from,
        shippedTo: filter.to,
        kit: row.kit.code,
        revision: row.revision?.revision ?? null,
        make: vehicle?.make ?? "not known",
        model: vehicle?.model ?? null,
        engine: vehicle?.engine ?? null,
        shipped: rounded(figures.shipped),
        sharedOut: rounded(figures.sharedOut),
        claims: figures.claims,
        rate: rounded(figures.rate?.estimate),
        rateLower: rounded(figures.rate?.lower),
        rateUpper: rounded(figures.rate?.upper),
        unitMonths: rounded(figures.unitMonths),
        serviceRate: rounded(figures.serviceRate?.estimate),
        serviceLower: rounded(figures.serviceRate?.lower),
        serviceUpper: rounded(figures.serviceRate?.upper),
        expected: rounded(comparison?.expected),
        ratio: rounded(comparison?.ratio.estimate),
        ratioLower: rounded(comparison?.ratio.lower),
        ratioUpper: rounded(comparison?.ratio.upper),
        probable: rounded(figures.probable),
        ...costs.of(figures.costs),
        ...outcomeColumns((outcome) => figures.outcomes[outcome]),
      })),
  );
  return { ok: true, table: fileTable({ ...COLUMNS, ...costs.names }, rows) };
}

function outcomeColumns<T>(of: (outcome: Outcome) => T): Record<`claims:${Outcome}`, T> {
  return Object.fromEntries(OUTCOMES.map((outcome) => [`claims:${outcome}`, of(outcome)])) as Record<`claims:${Outcome}`, T>;
}
