/**
 * Times of the scoring and how far explained-away rows move: `npm run bench -- rank`.
 */
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { nextChecks } from "@/lib/domain/diagnosis/next-checks";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { clearReading } from "@/lib/domain/diagnosis/physical-facts";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { EXPLAINED_AWAY, oddsRatioOf } from "@/tests/unit/diagnosis/explaining-away";

/** The worst a claim can be: everything told, every sign there, every reading beyond its limit. */
function everything(count: number): Observation[] {
  return edition1.findings.filter(({ observers }) => observers.length > 0).slice(0, count).map((definition): Observation => {
    const observer = definition.observers.at(-1) ?? "technician";
    const { code: finding } = definition;
    if (definition.kind !== "measurement") return { finding, observer, answer: definition.options[0]?.value ?? "" };
    return { finding, observer, measured: clearReading(definition, true) };
  });
}

function median(run: () => unknown, times: number): string {
  const took = Array.from({ length: times }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return `${(took[Math.floor(times / 2)] ?? 0).toFixed(2)} ms`;
}

for (const count of [4, 9, 12, 16, 20, 24, 30, 34, 40, edition1.findings.length]) {
  const observations = everything(count);
  const times = count < 26 ? 50 : 3;
  rankCauses(observations, edition1);
  const rank = median(() => rankCauses(observations, edition1), times);
  const checks = median(() => nextChecks(observations, edition1, { observer: "technician", stakes: USUAL_STAKES }), times);
  console.log(`${count} observations: ranking ${rank}, next checks ${checks}`);
}
for (const row of EXPLAINED_AWAY) {
  console.log(`${row.finding} ${row.state} on ${row.cause}: ${oddsRatioOf(row).toFixed(2)}, the table says ${row.tableSays}`);
}
