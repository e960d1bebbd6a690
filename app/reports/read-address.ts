import { type Period, yearUpTo } from "@/lib/domain/reporting/month";
import type { UnknownInFilter } from "@/lib/operations/check-report-filter";

/** The period where an address names none: the last twelve months. Which month it is changes at midnight UTC. */
export function usualPeriod(): Period {
  return yearUpTo(new Date().toISOString().slice(0, 7));
}

/** What is wrong with a filter that names what is not there, by field. */
export function unknownInWords({ field }: UnknownInFilter): Readonly<Partial<Record<string, string>>> {
  return { [field]: UNKNOWN[field] };
}

const UNKNOWN: Readonly<Record<UnknownInFilter["field"], string>> = {
  kit: "There is no such kit.",
  revision: "There is no such revision.",
  vehicle: "There is no such vehicle.",
  cause: "There is no such cause.",
  fitter: "There is no such fitter.",
};
