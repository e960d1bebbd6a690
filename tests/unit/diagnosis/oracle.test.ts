import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { sumOverStates } from "./oracle";

interface NetCase {
  id: string;
  model: { type: string; nodes: { id: string; states: string[]; parents: string[]; cpt: Record<string, number[]> }[] };
  inputs: { evidence: Record<string, string> };
  expected: { posterior: Record<string, Record<string, number>>; logEvidence: number };
  tolerance: { abs: number; logEvidenceAbs: number };
}

const { cases } = JSON.parse(readFileSync("tests/reference/inference.json", "utf8")) as { cases: NetCase[] };
const nets = cases.filter(({ model }) => model.type === "bayes_net");

describe("the sum that inference is held against agrees with published networks", () => {
  it("reads every general network of the reference", () => expect(nets).toHaveLength(10));

  it.each(nets.map((one) => [one.id, one] as const))("%s", (_, { model: { nodes }, inputs, expected, tolerance }) => {
    const place = new Map(nodes.map(({ id }, index) => [id, index]));
    const { total, of } = sumOverStates(nodes.map(({ states }) => states.length), (state) => {
      const named = (id: string) => nodes[place.get(id) ?? -1]?.states[state[place.get(id) ?? -1] ?? -1] ?? "";
      if (Object.entries(inputs.evidence).some(([id, value]) => named(id) !== value)) return 0;
      return nodes.reduce((product, { parents, cpt }, node) => product * (cpt[parents.map(named).join("|")]?.[state[node] ?? -1] ?? Number.NaN), 1);
    });
    expect(Math.abs(Math.log(total) - expected.logEvidence)).toBeLessThanOrEqual(tolerance.logEvidenceAbs);
    for (const [id, posterior] of Object.entries(expected.posterior)) {
      for (const [value, probability] of Object.entries(posterior)) {
        const node = place.get(id) ?? -1;
        const weight = of[node]?.[nodes[node]?.states.indexOf(value) ?? -1] ?? Number.NaN;
        expect(Math.abs(weight / total - probability)).toBeLessThanOrEqual(tolerance.abs);
      }
    }
  });
});
