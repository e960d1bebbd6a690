import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { countClaims, countShipments, countUnmatched, findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { type CausesTable, type ComparedCell, causesByKitAndVehicle, comparedCells } from "@/lib/domain/reporting/causes-by-kit-and-vehicle";
import { leadingCause } from "@/lib/domain/reporting/causes-of-a-selection";
import { looksHigh } from "@/lib/domain/reporting/comparison";
import type { CausesFilter } from "@/lib/inputs/report-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";

export interface CausesReport {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  table: CausesTable;
  /** Cells with enough claims to be compared, the most striking first. */
  compared: readonly ComparedCell[];
  /** The most striking cell where it looks high, with the cause that leads there. */
  outstanding: { cell: ComparedCell; leading: { cause: string; claims: number } | null } | null;
  /** Claims filed in the period that name no shipment and so stand in no rate. */
  unmatched: number;
}

/** Causes by kit and vehicle over a period of shipping. */
export async function loadCausesReport(actor: StaffActor, filter: CausesFilter): Promise<CausesReport | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const [catalogue, { causes }, settings] = await Promise.all([findReportCatalogue(), loadEditionInForce(), loadSettings()]);
  const unknown = findUnknown(catalogue, filter);
  if (unknown) return unknown;
  if (filter.cause !== undefined && !causes.some(({ code }) => code === filter.cause)) return { ok: false, reason: "unknown", field: "cause" };
  const [shipments, allClaims, unmatched] = await Promise.all([countShipments(filter), countClaims(filter), countUnmatched(filter, settings.timeZone)]);
  const claims = filter.cause === undefined ? allClaims : allClaims.filter(({ cause }) => cause === filter.cause);
  const table = causesByKitAndVehicle({ catalogue, shipments, claims }, filter);
  const compared = comparedCells(table);
  const [first] = compared;
  if (!first || !looksHigh(first.comparison)) return { ok: true, catalogue, causes, table, compared, outstanding: null, unmatched };
  const revisionIds = first.row.revision ? [first.row.revision.id] : first.row.kit.revisions.map(({ id }) => id);
  const behind = claims.filter(({ kitRevisionId, vehicleId }) => vehicleId === first.vehicle?.id && revisionIds.includes(kitRevisionId));
  return { ok: true, catalogue, causes, table, compared, outstanding: { cell: first, leading: leadingCause(behind) }, unmatched };
}
