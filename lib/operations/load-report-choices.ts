import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { findReportCatalogue } from "@/lib/data/reports";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { type Refusal, refuse } from "./refusal";

export interface ReportChoices {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
}

/** What a report's filter can choose from, for a form whose answers were refused. */
export async function loadReportChoices(actor: StaffActor): Promise<ReportChoices | Refusal> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const [catalogue, causes] = await Promise.all([findReportCatalogue(), loadCausesEverInForce()]);
  return { ok: true, catalogue, causes };
}
