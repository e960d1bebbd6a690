/**
 * Our plan of checks against the trade's fixed order and against asking everything, on complaints of the demo's causal
 * model: `npm run bench -- strategies`. The table is printed with 95 % intervals.
 */
import { wilsonInterval } from "@/lib/domain/statistics/wilson-interval";
import { complaintsOf, type Outcome, play, STRATEGIES } from "./check-strategies";

const complaints = complaintsOf(Number(process.argv[3] ?? 0.15));

function mean(outcomes: readonly Outcome[], read: (outcome: Outcome) => number): string {
  const values = outcomes.map(read);
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
  return `${middle.toFixed(1)} +-${((1.96 * spread) / Math.sqrt(values.length)).toFixed(1)}`;
}

function share(outcomes: readonly Outcome[], read: (outcome: Outcome) => boolean): string {
  const hits = outcomes.filter(read).length;
  const { lower, upper } = wilsonInterval(hits, outcomes.length, 0.95);
  return `${((100 * hits) / outcomes.length).toFixed(1)} (${(100 * lower).toFixed(1)}-${(100 * upper).toFixed(1)})`;
}

console.log(`${complaints.length} complaints`);
const rows = STRATEGIES.map((strategy) => {
  const began = performance.now();
  const outcomes = complaints.map((complaint, place) => play(strategy, complaint, place));
  return {
    strategy: strategy.name,
    checks: mean(outcomes, ({ checks }) => checks),
    minutes: mean(outcomes, ({ minutes }) => minutes),
    looking: mean(outcomes, ({ looking }) => looking),
    "unit right %": share(outcomes, ({ isUnitRight }) => isUnitRight),
    "cause right %": share(outcomes, ({ isCauseRight }) => isCauseRight),
    "wrong decisions": mean(outcomes, ({ wrong }) => wrong),
    "in all": mean(outcomes, ({ looking, wrong }) => looking + wrong),
    seconds: ((performance.now() - began) / 1000).toFixed(1),
  };
});
console.table(rows);
