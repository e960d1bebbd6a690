import { describe, expect, it } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import { rankingAsKept } from "@/lib/domain/diagnosis/kept-ranking";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { earlierForm } from "@/tests/builders/an-earlier-ranking";

const observations: Observation[] = [
  { finding: "F01", observer: "technician", answer: "present" },
  { finding: "F07", observer: "technician", answer: "first-start" },
  { finding: "F15", observer: "technician", answer: "present" },
  { finding: "F13", observer: "technician", measured: 12 },
];

describe("a kept ranking", () => {
  const ranking = rankCauses(observations, edition1);

  it("of today is read as it is", () => {
    expect(rankingAsKept(ranking)).toEqual(ranking);
  });

  it("in the earlier form, with the evidence at every cause, comes out with the same steps, weights and figures", () => {
    if (ranking.outcome === "contradiction") throw new Error("edition 1 explains everything somehow");
    expect(ranking.setAside.map(({ finding }) => finding)).toEqual(["F15"]);
    expect(rankingAsKept(earlierForm(ranking))).toEqual(ranking);
  });

  it("without what it was made for was made without experience", () => {
    expect(rankingAsKept({ outcome: "contradiction", edition: 1, stopEngine: null })).toEqual({ outcome: "contradiction", edition: 1, context: NO_CONTEXT, stopEngine: null });
  });
});
