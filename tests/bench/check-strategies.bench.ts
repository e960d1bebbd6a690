/**
 * Our plan of checks against the trade's fixed order and against asking everything, on complaints of the demo's causal
 * model: `npm run bench -- strategies`, with a share of the demo and a seed if wanted: `strategies 0.15 7`. The table is
 * printed with 95 % intervals. Nothing was chosen on any seed but the demo's.
 */
import { wilsonInterval } from "@/lib/domain/statistics/wilson-interval";
import { complaintsOf, DEMO_SEED, type Outcome, play, STRATEGIES } from "./check-strategies";

const seed = Number(process.argv[4] ?? DEMO_SEED);
const complaints = complaintsOf(Number(process.argv[3] ?? 0.15), seed);

function mean(values: readonly number[]): string {
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
  return `${middle.toFixed(1)} +-${((1.96 * spread) / Math.sqrt(values.length)).toFixed(1)}`;
}

function share(outcomes: readonly Outcome[], read: (outcome: Outcome) => boolean): string {
  const hits = outcomes.filter(read).length;
  const { lower, upper } = wilsonInterval(hits, outcomes.length, 0.95);
  return `${((100 * hits) / outcomes.length).toFixed(1)} (${(100 * lower).toFixed(1)}-${(100 * upper).toFixed(1)})`;
}

console.log(`${complaints.length} complaints, seed ${seed}`);
const played = STRATEGIES.map((strategy) => {
  const began = performance.now();
  const outcomes = complaints.map((complaint, place) => play(strategy, complaint, place, seed));
  return { strategy: strategy.name, outcomes, seconds: (performance.now() - began) / 1000 };
});
const rows = played.map(({ strategy, outcomes, seconds }) => ({
  strategy,
  checks: mean(outcomes.map(({ checks }) => checks)),
  minutes: mean(outcomes.map(({ minutes }) => minutes)),
  looking: mean(outcomes.map(({ looking }) => looking)),
  "unit right %": share(outcomes, ({ isUnitRight }) => isUnitRight),
  "cause right %": share(outcomes, ({ isCauseRight }) => isCauseRight),
  "wrong decisions": mean(outcomes.map(({ wrong }) => wrong)),
  "in all": mean(outcomes.map(({ looking, wrong }) => looking + wrong)),
  seconds: seconds.toFixed(1),
}));
console.table(rows);

/** Claim by claim, since every strategy meets the same claims: ours less the trade's. */
function less(ours: readonly Outcome[], trade: readonly Outcome[], read: (outcome: Outcome) => number): string {
  return mean(ours.map((outcome, place) => read(outcome) - read(trade[place] ?? outcome)));
}
const [plan, wary, fixed, ranked] = played;
if (plan && wary && fixed && ranked) {
  console.table(
    [plan, wary].flatMap((ours) =>
      [fixed, ranked].map((trade) => ({
        "claim by claim": `${ours.strategy} less ${trade.strategy}`,
        checks: less(ours.outcomes, trade.outcomes, ({ checks }) => checks),
        looking: less(ours.outcomes, trade.outcomes, ({ looking }) => looking),
        "unit right %": less(ours.outcomes, trade.outcomes, ({ isUnitRight }) => (isUnitRight ? 100 : 0)),
        "cause right %": less(ours.outcomes, trade.outcomes, ({ isCauseRight }) => (isCauseRight ? 100 : 0)),
        "wrong decisions": less(ours.outcomes, trade.outcomes, ({ wrong }) => wrong),
        "in all": less(ours.outcomes, trade.outcomes, ({ looking, wrong }) => looking + wrong),
      })),
    ),
  );
}
