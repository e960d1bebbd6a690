import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { poissonInterval } from "@/lib/domain/statistics/poisson-interval";
import { expectedCount, standardisedRatio } from "@/lib/domain/statistics/standardised-ratio";
import { wilsonInterval } from "@/lib/domain/statistics/wilson-interval";

interface Case {
  id: string;
  method: string;
  inputs: Record<string, number | number[]>;
  expected: Record<string, number>;
  tolerance: { rel: number; abs: number };
}

// Computed in R 4.2.2 and again in Python with scipy; the file names the source of each case and its tolerance, which
// covers the digits those programs print.
const { cases } = JSON.parse(readFileSync(new URL("../../reference/statistics.json", import.meta.url), "utf8")) as { cases: Case[] };

const number = ({ inputs }: Case, name: string) => inputs[name] as number;

/** How we answer each method the reports use, in the words of the file. */
const ANSWERS: Readonly<Record<string, (given: Case) => Record<string, number>>> = {
  poisson_exact_interval: (given) => {
    const { estimate, ...limits } = poissonInterval(number(given, "count"), number(given, "exposure"), number(given, "confidence"));
    return { rate: estimate, ...limits };
  },
  standardised_ratio: (given) => {
    const exposures = given.inputs.stratumExposures as number[];
    const strata = (given.inputs.stratumRates as number[]).map((rate, index) => ({ rate, exposure: exposures[index] ?? 0 }));
    const expected = expectedCount(strata);
    const { estimate, ...limits } = standardisedRatio(number(given, "observed"), expected, number(given, "confidence"));
    return { expectedCount: expected, ratio: estimate, ...limits };
  },
  wilson_interval: (given) => ({ ...wilsonInterval(number(given, "successes"), number(given, "trials"), number(given, "confidence")) }),
};

describe("statistics agree with R and scipy", () => {
  const ours = cases.filter(({ method }) => method in ANSWERS);

  it("in twelve cases of three methods", () => {
    expect(ours).toHaveLength(12);
    expect(new Set(ours.map(({ method }) => method))).toEqual(new Set(Object.keys(ANSWERS)));
  });

  it.each(ours.map((given) => [given.id, given] as const))("%s", (_id, given) => {
    const got = ANSWERS[given.method]?.(given) ?? {};
    for (const [name, expected] of Object.entries(given.expected)) {
      const allowed = Math.max(given.tolerance.abs, given.tolerance.rel * Math.abs(expected));
      expect(Math.abs((got[name] ?? Number.NaN) - expected), `${name} ${got[name]} for ${expected}`).toBeLessThanOrEqual(allowed);
    }
  });
});
