import type { Cohort } from "@/lib/domain/reporting/cohorts";
import type { Outcome } from "@/lib/domain/reporting/outcomes";

export interface Shipped {
  kitRevisionId: string;
  vehicleId: string | null;
  month: string;
  shipped: number;
}

export interface Claimed {
  kitRevisionId: string;
  vehicleId: string | null;
  month: string;
  outcome: Outcome;
  cause: string | null;
  claims: number;
}

/** What was shipped and claimed, given line by line, as cohorts. */
export function cohortsOf(shipped: readonly Shipped[], claimed: readonly Claimed[] = []): readonly Cohort[] {
  const places = new Map<string, Cohort & { months: { month: string; shipped: number; claims: number }[]; outcomes: Partial<Record<Outcome, number>> }>();
  const at = ({ kitRevisionId, vehicleId, month }: Pick<Shipped, "kitRevisionId" | "vehicleId" | "month">) => {
    const key = `${kitRevisionId} ${vehicleId}`;
    const place = places.get(key) ?? { kitRevisionId, vehicleId, months: [], outcomes: {}, costs: [], probable: 0 };
    places.set(key, place);
    let line = place.months.find((there) => there.month === month);
    if (!line) {
      line = { month, shipped: 0, claims: 0 };
      place.months.push(line);
    }
    return { place, line };
  };
  for (const count of shipped) at(count).line.shipped += count.shipped;
  for (const count of claimed) {
    const { place, line } = at(count);
    line.claims += count.claims;
    place.outcomes[count.outcome] = (place.outcomes[count.outcome] ?? 0) + count.claims;
  }
  return [...places.values()];
}
