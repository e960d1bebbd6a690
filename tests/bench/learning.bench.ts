/**
 * Learning on the demo's causal model: `npm run bench -- learning`. The edition's base figures, links and backgrounds are
 * put wrong by 30 %, up or down by lot, and learned back from simulated verdicts; what is printed is scored on later
 * verdicts that nothing was learned from.
 */
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { backtestResult, MEASURES, readDifference, scoreLaterVerdict, startBacktest } from "@/lib/domain/learning/backtest";
import type { ForecastScores } from "@/lib/domain/learning/forecast-scores";
import { proposeLearnedEdition } from "@/lib/domain/learning/propose-learned-edition";
import type { TrainingExample } from "@/lib/domain/learning/training-example";
import { seededRandom } from "@/lib/domain/statistics/bootstrap-interval";
import { disturbed, learnedNames, meanDistance } from "@/tests/builders/disturbed-edition";
import { simulateShop } from "@/tests/builders/simulated-verdicts";
import { Random } from "../../seed/random";

const SCORED = 1000;
const LEARNED = [500, 2000, 5000];

const shop = simulateShop(3, Math.max(...LEARNED) + SCORED);
const later = shop.examples.slice(-SCORED);
const wrong = disturbed(edition1, 0.3, Random.forTheme(5, "wrong"));

function backtest(before: Edition, after: Edition, scored: readonly TrainingExample[]) {
  const under = startBacktest(before, after);
  for (const example of scored) scoreLaterVerdict(under, example);
  return backtestResult(under, sharesAmong(shop.examples.slice(0, -SCORED)), seededRandom(1));
}

function sharesAmong(examples: readonly TrainingExample[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { primary, contributing } of examples) for (const code of [primary, ...contributing]) counts.set(code, (counts.get(code) ?? 0) + 1);
  return new Map([...counts].map(([code, count]) => [code, count / examples.length]));
}

const row = (name: string, { logLoss, brier, skill, led, reciprocalRank, calibration, expectedCalibrationError }: ForecastScores) =>
  console.log(`${name.padEnd(38)} ${logLoss.toFixed(4)}  ${brier.toFixed(4)}  ${(skill ?? 0).toFixed(3)}  ${led.toFixed(3)}  ${reciprocalRank.toFixed(3)}  ${(calibration?.slope ?? 0).toFixed(2)}   ${expectedCalibrationError.toFixed(4)}`);

console.log(`first contact, ${SCORED} later verdicts       log loss  Brier  skill  led    rank   slope  calibration error`);
const [untouched] = backtest(wrong, edition1, later);
if (untouched) row("edition 1, as it is", untouched.after);
if (untouched) row("edition 1, wrong by 30 %", untouched.before);
for (const count of LEARNED) {
  const examples = shop.examples.slice(0, count);
  const exposure = shop.exposure;
  const began = performance.now();
  const recovered = proposeLearnedEdition(examples, exposure, wrong);
  const tookMs = performance.now() - began;
  const undisturbed = proposeLearnedEdition(examples, exposure, edition1);
  const [first, , all] = backtest(wrong, recovered, later);
  const [reference] = backtest(wrong, undisturbed, later);
  if (!first || !all || !reference) continue;
  row(`learned from ${count}, from the wrong one`, first.after);
  row(`learned from ${count}, from edition 1`, reference.after);
  const names = learnedNames(undisturbed);
  const error = (isMeant: (name: string) => boolean) => `${meanDistance(wrong, edition1, isMeant).toFixed(3)} to ${meanDistance(recovered, undisturbed, isMeant).toFixed(3)}`;
  console.log(
    `   mean error of figures (natural log), against those learned without the disturbance: base figures ${error((name) => name.startsWith("C"))}, backgrounds ${error((name) => names.has(name) && /^F\d+ \w+$/.test(name))}, links ${error((name) => names.has(name) && name.includes(" C"))}`,
  );
  console.log(`   against the wrong one: ${MEASURES.map((measure) => `${measure} ${first.differences[measure].estimate.toFixed(4)} (${readDifference(measure, first.differences[measure])})`).join(", ")}`);
  console.log(`   with all findings: log loss ${all.before.logLoss.toFixed(4)} to ${all.after.logLoss.toFixed(4)}, led by the true cause ${all.before.led.toFixed(3)} to ${all.after.led.toFixed(3)}`);
  console.log(`   learned in ${tookMs.toFixed(0)} ms; ${names.size} figures, ${recovered.experience.length} rows of experience`);
}
