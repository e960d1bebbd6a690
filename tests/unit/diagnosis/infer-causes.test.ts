import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { inferCauses, logEvidenceOf } from "@/lib/domain/diagnosis/infer-causes";
import { chanceOn, type NoisyOrEvidence, type NoisyOrFinding, type NoisyOrNetwork, notThere, seen } from "@/lib/domain/diagnosis/noisy-or";

interface ReferenceCase {
  id: string;
  model: {
    type: string;
    causes: { id: string; prior: number }[];
    findings: { id: string; leak: number; links: Record<string, number>; inhibitors?: Record<string, number> }[];
  };
  inputs: {
    task: string;
    evidence?: Record<string, 0 | 1>;
    finding?: string;
    causeOrder?: string[];
    forcedAbsent?: string[];
    conditionOnAtLeastOneCause?: boolean;
    priorOddsMultipliers?: Record<string, number[]>;
    defectCauses?: string[];
    hypothesis?: string;
    order?: string[];
    actions?: { id: string; utilityIfDefective: number; utilityIfNotDefective: number }[];
    checks?: { finding: string; cost: number }[];
  };
  expected: {
    posterior: Record<string, number> | null;
    posteriorUnitDefective?: number;
    logEvidence?: number;
    table?: Record<string, number>;
    priorLogOdds?: number;
    posteriorLogOdds?: number;
    leaveOneOut?: Record<string, number>;
    sequential?: number[];
    alone?: Record<string, number>;
    checks?: Record<string, { probabilityPositive: number; defectiveIfPositive: number; defectiveIfNegative: number }>;
  };
  tolerance: { abs?: number; rel?: number; logEvidenceAbs?: number };
}

const { cases } = JSON.parse(readFileSync("tests/reference/inference.json", "utf8")) as { cases: ReferenceCase[] };
const twoLayer = cases.filter(({ model }) => model.type === "noisy_or_two_layer");
const ofTask = (task: string) => twoLayer.filter(({ inputs }) => inputs.task === task);

function read({ model, inputs }: ReferenceCase) {
  const place = new Map(model.causes.map(({ id }, index) => [id, index]));
  const indexOf = (id: string) => place.get(id) ?? Number.NaN;
  const pairs = (record: Record<string, number> = {}) =>
    Object.entries(record).map(([id, strength]) => ({ cause: indexOf(id), strength }));
  const findings = new Map<string, NoisyOrFinding>(
    model.findings.map((f) => [f.id, { leak: f.leak, links: pairs(f.links), inhibitors: pairs(f.inhibitors) }]),
  );
  const findingOf = (id: string) => findings.get(id) ?? { leak: Number.NaN, links: [] };
  const network: NoisyOrNetwork = {
    priors: model.causes.map(({ id, prior }) => {
      if (inputs.forcedAbsent?.includes(id)) return 0;
      const odds = (inputs.priorOddsMultipliers?.[id] ?? []).reduce((o, m) => o * m, prior / (1 - prior));
      return odds / (1 + odds);
    }),
  };
  const evidenceOf = (ids: string[]): NoisyOrEvidence[] =>
    ids.map((id) => (inputs.evidence?.[id] === 1 ? seen(findingOf(id)) : notThere(findingOf(id))));
  return { network, indexOf, findingOf, evidenceOf, given: Object.keys(inputs.evidence ?? {}) };
}

/** |got - expected| <= max(abs, rel * |expected|), as the reference file says. */
function expectWithin(got: number, expected: number, { abs = 0, rel = 0 }: ReferenceCase["tolerance"]) {
  expect(Math.abs(got - expected)).toBeLessThanOrEqual(Math.max(abs, rel * Math.abs(expected)));
}

function logOdds(network: NoisyOrNetwork, evidence: NoisyOrEvidence[], cause: number): number {
  const posterior = inferCauses(network, evidence);
  if (posterior.outcome === "contradiction") throw new Error("the reference evidence is possible");
  return Math.log((posterior.present[cause] ?? 0) / (posterior.absent[cause] ?? 0));
}

describe("inference agrees with independent engines", () => {
  it("reads every two-layer case of the reference", () => {
    expect(twoLayer).toHaveLength(27);
  });

  it.each(ofTask("posterior").map((c) => [c.id, c] as const))("posterior of %s", (_, reference) => {
    const { network, indexOf, evidenceOf, given } = read(reference);
    const { expected, inputs, tolerance } = reference;
    const posterior = inferCauses(network, evidenceOf(given));
    if (expected.posterior === null) {
      expect(posterior).toEqual({ outcome: "contradiction" });
      return;
    }
    if (posterior.outcome === "contradiction") throw new Error("the reference evidence is possible");
    const everyCause = new Set(network.priors.keys());
    const shareOfEmptySet = inputs.conditionOnAtLeastOneCause
      ? Math.exp(logEvidenceOf(network, evidenceOf(given), everyCause) - posterior.logEvidence)
      : 0;
    for (const [id, value] of Object.entries(expected.posterior)) {
      expectWithin((posterior.present[indexOf(id)] ?? Number.NaN) / (1 - shareOfEmptySet), value, tolerance);
    }
    if (expected.logEvidence !== undefined) {
      const log = posterior.logEvidence + Math.log(1 - shareOfEmptySet);
      expectWithin(log, expected.logEvidence, { abs: tolerance.logEvidenceAbs ?? 0 });
    }
    if (expected.posteriorUnitDefective !== undefined) {
      const off = new Set((inputs.defectCauses ?? []).map(indexOf));
      const defective = 1 - Math.exp(logEvidenceOf(network, evidenceOf(given), off) - posterior.logEvidence);
      expectWithin(defective, expected.posteriorUnitDefective, tolerance);
    }
  });

  it.each(ofTask("finding_probability_table").map((c) => [c.id, c] as const))("table of %s", (_, reference) => {
    const { indexOf, findingOf } = read(reference);
    for (const [key, value] of Object.entries(reference.expected.table ?? {})) {
      const there = new Set(key.split("|").flatMap((digit, i) => (digit === "1" ? [indexOf(reference.inputs.causeOrder?.[i] ?? "")] : [])));
      expectWithin(chanceOn(findingOf(reference.inputs.finding ?? ""), (cause) => there.has(cause)), value, reference.tolerance);
    }
  });

  it.each(ofTask("weight_of_evidence").map((c) => [c.id, c] as const))("weights of %s", (_, reference) => {
    const { network, indexOf, evidenceOf } = read(reference);
    const { expected, inputs, tolerance } = reference;
    const cause = indexOf(inputs.hypothesis ?? "");
    const bans = (ids: string[]) => logOdds(network, evidenceOf(ids), cause) / Math.LN10;
    const order = inputs.order ?? [];
    expectWithin(bans([]), expected.priorLogOdds ?? Number.NaN, tolerance);
    expectWithin(bans(order), expected.posteriorLogOdds ?? Number.NaN, tolerance);
    order.forEach((id, i) => {
      const sequential = bans(order.slice(0, i + 1)) - bans(order.slice(0, i));
      expectWithin(sequential, expected.sequential?.[i] ?? Number.NaN, tolerance);
      expectWithin(bans(order) - bans(order.filter((other) => other !== id)), expected.leaveOneOut?.[id] ?? Number.NaN, tolerance);
      expectWithin(bans([id]) - bans([]), expected.alone?.[id] ?? Number.NaN, tolerance);
    });
  });

  it.each(ofTask("value_of_information").map((c) => [c.id, c] as const))("outcomes of the checks of %s", (_, reference) => {
    const { network, indexOf, findingOf, evidenceOf, given } = read(reference);
    const { expected, inputs, tolerance } = reference;
    const known = evidenceOf(given);
    const off = new Set((inputs.defectCauses ?? []).map(indexOf));
    const log = logEvidenceOf(network, known);
    for (const [id, outcome] of Object.entries(expected.checks ?? {})) {
      const logSeen = logEvidenceOf(network, [...known, seen(findingOf(id))]);
      const logNot = logEvidenceOf(network, [...known, notThere(findingOf(id))]);
      expectWithin(Math.exp(logSeen - log), outcome.probabilityPositive, tolerance);
      expectWithin(1 - Math.exp(logEvidenceOf(network, [...known, seen(findingOf(id))], off) - logSeen), outcome.defectiveIfPositive, tolerance);
      expectWithin(1 - Math.exp(logEvidenceOf(network, [...known, notThere(findingOf(id))], off) - logNot), outcome.defectiveIfNegative, tolerance);
    }
  });
});
