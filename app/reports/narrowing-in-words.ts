import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { OUTCOME_NAMES } from "@/lib/domain/reporting/outcomes";
import type { SelectionFilter } from "@/lib/inputs/report-filter";

export const ORIGIN_NAMES = { fitter: "the fitter", kit: "the kit", not_known: "not known" } as const;

export function fitterName({ name, place }: { name: string; place: string }): string {
  return place ? `${name}, ${place}` : name;
}

/** What a report is narrowed by beside kit and vehicle, in words: "laid to kit; batch T12-2603". Empty where by nothing. */
export function narrowingInWords(
  { batch, cause, outcome, origin, serviceFrom, serviceTo }: Omit<SelectionFilter, "from" | "to">,
  { causes, fitter }: { causes: readonly Cause[]; fitter: { name: string; place: string } | null },
  role: "primary" | "contributing" | "probable" = "primary",
): string {
  const causeWords = { primary: "primary cause", contributing: "with a contribution from", probable: "not yet decided, possibly" }[role];
  return [
    cause && `${causeWords} ${cause} ${causes.find(({ code }) => code === cause)?.name ?? ""}`.trimEnd(),
    outcome && (outcome === "decided" ? "decided" : outcome === "undecided" || outcome === "ended" ? OUTCOME_NAMES[outcome] : `laid to ${OUTCOME_NAMES[outcome]}`),
    origin && `origin ${ORIGIN_NAMES[origin]}`,
    batch && `batch ${batch}`,
    fitter && `fitted by ${fitterName(fitter)}`,
    serviceInWords(serviceFrom, serviceTo),
  ]
    .filter(Boolean)
    .join("; ");
}

function serviceInWords(first: number | undefined, last: number | undefined): string | null {
  if (first === undefined && last === undefined) return null;
  if (last === undefined) return `from month ${first} in service`;
  return first === last ? `in month ${last} in service` : `in months ${first ?? 0} to ${last} in service`;
}
