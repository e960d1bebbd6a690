import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { ratiosOfLink, speakingOf } from "@/lib/domain/diagnosis/evidence-ratios";
import { leavesOf } from "@/lib/domain/diagnosis/edition-leaves";
import { sourcesOf } from "@/lib/domain/diagnosis/provenance-words";

describe("what speaks for a cause", () => {
  test("is told as the ratios that the figures were made from", () => {
    // Plus 12 and minus 0.05 make link 0.95 and background 0.95 / 11.95.
    const { present, absent } = ratiosOfLink(0.95 / 11.95, 0.95);
    expect(present).toBeCloseTo(12, 10);
    expect(absent).toBeCloseTo(0.05, 10);
  });

  test("is certain where it is never seen otherwise, and nothing where there is no link", () => {
    expect(ratiosOfLink(0, 0.5).present).toBe(Number.POSITIVE_INFINITY);
    expect(ratiosOfLink(0, 0)).toEqual({ present: 1, absent: 1 });
    expect(ratiosOfLink(0.2, 0)).toEqual({ present: 1, absent: 1 });
  });

  test("stands strongest first, each cause of the shipped edition with something", () => {
    for (const { code } of edition1.causes) {
      const strengths = speakingOf(code, edition1).map(({ strength }) => strength);
      expect(strengths.length).toBeGreaterThan(0);
      expect(strengths).toEqual([...strengths].sort((a, b) => b - a));
    }
  });
});

test("the sources of an edition count every one of its figures once", () => {
  const figures = [...leavesOf(edition1).values()].filter(({ provenance }) => provenance).length;
  expect(sourcesOf(edition1).reduce((sum, source) => sum + source.figures, 0)).toBe(figures);
});
