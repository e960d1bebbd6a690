import type { MonthsReport } from "@/lib/operations/load-months-report";
import { count } from "../../figures-in-words";

/** How months are made comparable, in words. */
export function Pattern({ pattern, isByVerdict }: { pattern: MonthsReport["pattern"]; isByVerdict: boolean }) {
  const from = pattern.isOfAll ? "all claims there are, since these are few" : "these claims themselves";
  const verdicts = isByVerdict ? " Of claims not yet decided as many are taken to come out so as of the decided ones." : "";
  if (pattern.by === "filed")
    return (
      <p>
        Most claims come early in a unit's life, so in each month a unit counts as much as units of its age usually bring; else the rate would fall as the fleet grows older. How much that is comes from {from}.{verdicts}
      </p>
    );
  if (!pattern.delay) return <p>There is no claim yet that would tell how late claims come in, so no month is corrected for it.{verdicts}</p>;
  const { shareWithin, claims } = pattern.delay;
  const told = [0, 2, 5, 11].filter((month) => month < shareWithin.length).map((month) => `${Math.round((shareWithin[month] ?? 1) * 100)} % by the end of ${month === 0 ? "the month of shipping" : `month ${month} after it`}`);
  return (
    <p>
      Claims come late: of those that come within {shareWithin.length} months, {told.join(", ")}. It is told by {from} ({count(claims)}), and what was shipped lately is brought to what it will be by it; nothing is assumed to come later.{verdicts}
    </p>
  );
}
