import { describe, expect, test } from "vitest";
import { inferCauses, logEvidenceOf } from "@/lib/domain/diagnosis/infer-causes";
import type { NoisyOrEvidence, NoisyOrFinding } from "@/lib/domain/diagnosis/noisy-or";
import { entropyBits, valueOfInformation } from "@/lib/domain/diagnosis/value-of-information";
import reference from "@/tests/reference/inference.json";

interface ValueCase {
  id: string;
  model: { causes: { id: string; prior: number }[]; findings: { id: string; leak: number; links: Record<string, number> }[] };
  inputs: {
    evidence: Record<string, 0 | 1>;
    defectCauses: string[];
    actions: { utilityIfDefective: number; utilityIfNotDefective: number }[];
    checks: { finding: string; cost: number }[];
  };
  expected: {
    posteriorUnitDefective: number;
    expectedUtilityNow: number;
    expectedValueOfPerfectInformation: number;
    bestByNetValue: string | null;
    checks: Record<string, { probabilityPositive: number; expectedValueOfSampleInformation: number; netValue: number; mutualInformationBits: number }>;
  };
  tolerance: { abs: number };
}

const cases = (reference.cases as unknown as ValueCase[]).filter(({ id }) => id.startsWith("inf-voi-"));

/** Chance of a defect, and log evidence, in the reference's own network. */
function known({ model, inputs }: ValueCase, told: Record<string, 0 | 1>) {
  const place = new Map(model.causes.map(({ id }, index) => [id, index]));
  const findings = new Map(
    model.findings.map(({ id, leak, links }): [string, NoisyOrFinding] => [id, { leak, links: Object.entries(links).map(([cause, strength]) => ({ cause: place.get(cause) ?? -1, strength })) }]),
  );
  const network = { priors: model.causes.map(({ prior }) => prior) };
  const evidence = Object.entries(told).map(([id, on]): NoisyOrEvidence => ({ finding: findings.get(id) ?? { leak: Number.NaN, links: [] }, weightOn: on, weightOff: 1 - on }));
  const posterior = inferCauses(network, evidence);
  if (posterior.outcome === "contradiction") throw new Error("the cases are possible");
  const sound = logEvidenceOf(network, evidence, new Set(inputs.defectCauses.map((id) => place.get(id) ?? -1)));
  return { logEvidence: posterior.logEvidence, defective: 1 - Math.exp(sound - posterior.logEvidence) };
}

describe("the value of information agrees with the reference", () => {
  test("which has both its cases", () => expect(cases).toHaveLength(2));

  test.each(cases.map((one) => [one.id, one] as const))("%s", (_, one) => {
    const { inputs, expected } = one;
    const cost = (defective: number) =>
      Math.min(...inputs.actions.map(({ utilityIfDefective, utilityIfNotDefective }) => -(defective * utilityIfDefective + (1 - defective) * utilityIfNotDefective)));
    const expectWithin = (got: number | undefined, value: number | undefined) => expect(Math.abs((got ?? Number.NaN) - (value ?? Number.NaN))).toBeLessThanOrEqual(one.tolerance.abs);
    const now = known(one, inputs.evidence);
    expectWithin(now.defective, expected.posteriorUnitDefective);
    expectWithin(-cost(now.defective), expected.expectedUtilityNow);
    const certain = [1, 0].map((is) => ({ probability: is ? now.defective : 1 - now.defective, known: is }));
    expectWithin(valueOfInformation(certain, now.defective, cost), expected.expectedValueOfPerfectInformation);

    let best: { finding: string | null; net: number } = { finding: null, net: 0 };
    for (const { finding, cost: price } of inputs.checks) {
      const outcomes = ([1, 0] as const).map((answer) => {
        const after = known(one, { ...inputs.evidence, [finding]: answer });
        return { probability: Math.exp(after.logEvidence - now.logEvidence), known: after.defective };
      });
      const gain = valueOfInformation(outcomes, now.defective, cost);
      const told = expected.checks[finding];
      expectWithin(outcomes[0]?.probability, told?.probabilityPositive);
      expectWithin(gain, told?.expectedValueOfSampleInformation);
      expectWithin(gain - price, told?.netValue);
      const bits = entropyBits(now.defective) - outcomes.reduce((sum, { probability, known: defective }) => sum + probability * entropyBits(defective), 0);
      expectWithin(bits, told?.mutualInformationBits);
      if (gain - price > best.net) best = { finding, net: gain - price };
    }
    expect(best.finding).toBe(expected.bestByNetValue);
  });
});
