import { describe, expect, it } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { backtestResult, readDifference, scoreLaterVerdict, startBacktest } from "@/lib/domain/learning/backtest";
import { proposeLearnedEdition } from "@/lib/domain/learning/propose-learned-edition";
import { seededRandom } from "@/lib/domain/statistics/bootstrap-interval";
import { disturbed, learnedNames, meanDistance } from "@/tests/builders/disturbed-edition";
import { simulateShop } from "@/tests/builders/simulated-verdicts";
import { Random } from "../../../seed/random";

// The shop's truth is the demo's causal model, which shares no figure with the edition.
const shop = simulateShop(8, 900);
const earlier = shop.examples.slice(0, 600);
const later = shop.examples.slice(600);
const wrong = disturbed(edition1, 0.3, Random.forTheme(21, "wrong"));
const recovered = proposeLearnedEdition(earlier, shop.exposure, wrong);

function firstContact(before: Edition, after: Edition) {
  const under = startBacktest(before, after);
  for (const example of later) scoreLaterVerdict(under, example);
  const [view] = backtestResult(under, new Map(), seededRandom(1));
  if (!view) throw new Error("nothing was scored");
  return view;
}

describe("with the knowledge put wrong by 30 %, learning", () => {
  it("makes forecasts of later verdicts better than before, beyond chance", () => {
    const { before, after, differences } = firstContact(wrong, recovered);
    expect(after.logLoss / before.logLoss).toBeLessThan(0.97);
    expect(after.brier / before.brier).toBeLessThan(0.97);
    expect(readDifference("logLoss", differences.logLoss)).toBe("better");
    expect(after.led).toBeGreaterThan(before.led);
    expect(after.reciprocalRank).toBeGreaterThan(before.reciprocalRank);
  });

  it("comes near to what it makes of the undisturbed knowledge", () => {
    const undisturbed = proposeLearnedEdition(earlier, shop.exposure, edition1);
    const names = learnedNames(undisturbed);
    const errorLeft = (isMeant: (name: string) => boolean) => meanDistance(recovered, undisturbed, isMeant) / meanDistance(wrong, edition1, isMeant);
    expect(errorLeft((name) => name.startsWith("C"))).toBeLessThan(0.6);
    expect(errorLeft((name) => names.has(name))).toBeLessThan(0.85);
    const { before, after } = firstContact(wrong, undisturbed);
    expect((before.logLoss - firstContact(wrong, recovered).after.logLoss) / (before.logLoss - after.logLoss)).toBeGreaterThan(0.6);
  });
});
