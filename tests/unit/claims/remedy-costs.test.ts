import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { REMEDIES } from "@/lib/domain/claims/remedies";
import { expectedRemedyCosts, priceOf, proposeRemedy } from "@/lib/domain/claims/remedy-costs";
import { SECOND_PERSON_GROUNDS, secondPersonGrounds } from "@/lib/domain/claims/second-person";
import { mayDecideAgain } from "@/lib/domain/claims/verdict";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import type { RankedCause, Ranking } from "@/lib/domain/diagnosis/ranking";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";

const PRICES = { unit: 650, unitPrice: 900, repair: 220, part: 60, carriage: 20, goodwill: 120 };
const STAKES = { repeatContact: 150, missedDefect: 600 };

/** A ranking by its leader and how probable the unit's defect is. */
function ranked(causes: readonly (readonly [code: string, attribution: Attribution, probability: number])[], attributions: Partial<Record<Attribution, number>> = {}): Ranking {
  const all = { fit: 0, kit: 0, engine: 0, unit: 0, normal: 0, transit: 0, elsewhere: 0, ...attributions };
  return {
    ...rankCauses([], edition1),
    outcome: "ranked",
    causes: causes.map(([code, attribution, probability]): RankedCause => ({ code, attribution, probability, part: "drain", base: 0.1, weights: [] })),
    attributions: all,
    unitDefective: all.unit,
  } as Ranking;
}

describe("what remedies are expected to cost", () => {
  test("is for advice on a level drain of 80 %, the unit defective with 5 %, what follows where it fails", () => {
    const costs = expectedRemedyCosts(ranked([["C01", "fit", 0.8]], { fit: 0.8, unit: 0.05 }), PRICES, STAKES);
    const advice = costs.find(({ remedy }) => remedy === "advice");
    expect(advice?.itself).toBe(0);
    expect(advice?.expected).toBeCloseTo(0.05 * 600 + 0.15 * 150, 12);
    expect(proposeRemedy(ranked([["C01", "fit", 0.8]]), costs)).toBe("advice");
  });

  test("speaks for mending the unit where it is surely defective, and for a part where the kit's own is at fault", () => {
    const unit = ranked([["C15", "unit", 0.97]], { unit: 0.97 });
    expect(proposeRemedy(unit, expectedRemedyCosts(unit, PRICES, STAKES))).toBe("repair");
    const kit = ranked([["C10", "kit", 0.9]], { kit: 0.9 });
    const costs = expectedRemedyCosts(kit, PRICES, STAKES);
    expect(proposeRemedy(kit, costs)).toBe("part_sent");
    // Advice alone leaves the customer without the part.
    expect(costs.find(({ remedy }) => remedy === "advice")?.chanceItFails).toBe(1);
  });

  test("is never less than the remedy itself, never fails with a chance beyond 0 and 1, and is told the least first", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom<Attribution>("fit", "kit", "engine", "unit", "normal", "transit"), share, share, share, (attribution, probability, unit, kit) => {
        const costs = expectedRemedyCosts(ranked([["C01", attribution, probability]], { unit, kit }), PRICES, STAKES);
        expect([...costs].map(({ remedy }) => remedy).sort()).toEqual([...REMEDIES].sort());
        for (const { remedy, itself, thenExpected, chanceItFails, expected } of costs) {
          expect(itself).toBe(priceOf(remedy, PRICES));
          expect(thenExpected).toBeGreaterThanOrEqual(0);
          expect(chanceItFails).toBeGreaterThanOrEqual(0);
          expect(chanceItFails).toBeLessThanOrEqual(1);
          expect(expected).toBeCloseTo(itself + thenExpected, 9);
        }
        expect(costs.map(({ expected }) => expected)).toEqual(costs.map(({ expected }) => expected).sort((a, b) => a - b));
      }),
    );
  });

  test("never makes a ranking speak for refusing or for a courtesy, and is nothing without one", () => {
    fc.assert(
      fc.property(fc.constantFrom<Attribution>("fit", "kit", "engine", "unit", "normal", "transit", "elsewhere"), fc.double({ min: 0, max: 1, noNaN: true }), (attribution, probability) => {
        const ranking = ranked([["C01", attribution, probability]]);
        expect(["declined", "goodwill", null]).not.toContain(proposeRemedy(ranking, expectedRemedyCosts(ranking, PRICES, STAKES)));
      }),
    );
    const contradiction: Ranking = { outcome: "contradiction", edition: 1, context: NO_CONTEXT, stopEngine: null };
    expect(expectedRemedyCosts(contradiction, PRICES, STAKES)).toEqual([]);
    expect(proposeRemedy(null, [])).toBeNull();
  });
});

describe("a second person looks", () => {
  const fit = ranked([["C01", "fit", 0.8]]);
  test("at a verdict above the set value, and at a refusal against the ranking", () => {
    expect(secondPersonGrounds({ remedy: "replacement", cost: 500 }, fit, 500)).toEqual([]);
    expect(secondPersonGrounds({ remedy: "replacement", cost: 500.01 }, fit, 500)).toEqual(["above_value"]);
    expect(secondPersonGrounds({ remedy: "declined", cost: 0 }, fit, 500)).toEqual([]);
    for (const attribution of ["unit", "kit", "transit"] as const) expect(secondPersonGrounds({ remedy: "declined", cost: 0 }, ranked([["C15", attribution, 0.6]]), 500)).toEqual(["declined_against_ranking"]);
    expect(secondPersonGrounds({ remedy: "advice", cost: 501 }, null, 500)).toEqual([SECOND_PERSON_GROUNDS[0]]);
  });
});

describe("an objection", () => {
  const [day1, day2] = [new Date("2026-05-01"), new Date("2026-05-09")];
  const verdicts = [
    { decidedById: "iris", decidedAt: day2, supersededAt: new Date("2026-05-20") },
    { decidedById: "jonah", decidedAt: day1, supersededAt: new Date("2026-05-05") },
  ];
  test("is answered by another than who gave the last verdict, or by an administrator", () => {
    const may = (id: string, role: "support" | "admin" = "support") => mayDecideAgain({ id, role }, verdicts);
    expect([may("iris"), may("jonah"), may("iris", "admin")]).toEqual([false, true, true]);
  });

  test("keeps nobody from deciding where there is none", () => {
    expect(mayDecideAgain({ id: "iris", role: "support" }, [])).toBe(true);
    expect(mayDecideAgain({ id: "iris", role: "support" }, [{ decidedById: "iris", decidedAt: day1, supersededAt: null }])).toBe(true);
  });
});
