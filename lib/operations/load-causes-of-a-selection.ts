import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { countClaims, countContributing, countShipments, findReportCatalogue } from "@/lib/data/reports";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { causesOfASelection, type SelectionReport } from "@/lib/domain/reporting/causes-of-a-selection";
import type { SelectionFilter } from "@/lib/inputs/report-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";

export interface LoadedSelection {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  report: SelectionReport;
}

/** The causes behind one cell, row or column of the report. */
export async function loadCausesOfASelection(actor: StaffActor, filter: SelectionFilter): Promise<LoadedSelection | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const [catalogue, { causes }] = await Promise.all([findReportCatalogue(), loadEditionInForce()]);
  const unknown = findUnknown(catalogue, filter);
  if (unknown) return unknown;
  const [shipments, claims, contributing] = await Promise.all([countShipments(filter), countClaims(filter), countContributing(filter)]);
  return { ok: true, catalogue, causes, report: causesOfASelection({ catalogue, shipments, claims, contributing, selection: filter }) };
}
