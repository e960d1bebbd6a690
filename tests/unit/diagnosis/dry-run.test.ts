import { describe, expect, test } from "vitest";
import { compareRankings, dryRunTally } from "@/lib/domain/diagnosis/dry-run";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { pocket } from "./pocket-edition";

const from: Edition = pocket;
/** The same with the bases of drain and ring exchanged and sharpened: the drain leads. */
const drainFirst: Edition = { ...from, number: 8, causes: from.causes.map((cause) => ({ ...cause, base: { ...cause.base, value: cause.code === "C01" ? 0.4 : 0.02 } })) };
/** The ring far likelier: it leads. */
const ringFirst: Edition = { ...from, number: 9, causes: from.causes.map((cause) => ({ ...cause, base: { ...cause.base, value: cause.code === "C01" ? 0.001 : 0.9 } })) };
const wet: Observation[] = [{ finding: "F01", observer: "customer", answer: "present" }];
const under = (edition: Edition) => rankCauses(wet, edition);

describe("a dry run", () => {
  test("compares one claim under two editions", () => {
    const compared = compareRankings(under(ringFirst), under(drainFirst));
    expect(compared).toMatchObject({ before: { code: "C15" }, after: { code: "C01" }, isLedOtherwise: true });
    expect(compared.unitShift).toBeLessThan(-0.5);
    expect(compareRankings(under(drainFirst), under(drainFirst))).toMatchObject({ isLedOtherwise: false, unitShift: 0 });
  });

  test("counts leaders, units, remedies and verdicts over claims", () => {
    const tally = dryRunTally();
    tally.add(under(ringFirst), under(drainFirst), "C01");
    tally.add(under(ringFirst), under(drainFirst), "C15");
    tally.add(under(drainFirst), under(drainFirst), null);
    const result = tally.result();
    expect(result).toMatchObject({
      claims: 3,
      otherLeader: 2,
      moves: [{ from: "C15", to: "C01", claims: 2 }],
      contradictions: { before: 0, after: 0 },
      unitRemedies: { before: 2, after: 0, came: 0, went: 2 },
      decided: { claims: 2, ledBefore: 1, ledAfter: 1, gained: 1, lost: 1 },
    });
    expect(result.unit.lowered).toBe(2);
    expect(result.unit.meanBefore).toBeGreaterThan(result.unit.meanAfter);
  });

  test("counts a claim whose evidence cannot happen, and moves no unit for it", () => {
    const tally = dryRunTally();
    const impossible = { outcome: "contradiction", edition: 9, context: NO_CONTEXT, stopEngine: null } as const;
    expect(tally.add(under(drainFirst), impossible, "C01")).toMatchObject({ after: null, isLedOtherwise: true, unitShift: 0 });
    expect(tally.result()).toMatchObject({ contradictions: { before: 0, after: 1 }, moves: [{ from: "C01", to: null, claims: 1 }], unit: { raised: 0, lowered: 0 }, decided: { lost: 1 } });
  });

  test("of no claim at all has means of nothing, not of NaN", () => {
    expect(dryRunTally().result()).toMatchObject({ claims: 0, unit: { meanBefore: 0, meanAfter: 0 } });
  });
});
