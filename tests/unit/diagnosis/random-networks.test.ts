import { describe, expect, it } from "vitest";
import { inferCauses, logEvidenceOf } from "@/lib/domain/diagnosis/infer-causes";
import type { NoisyOrEvidence, NoisyOrFinding, NoisyOrNetwork } from "@/lib/domain/diagnosis/noisy-or";
import { sumOverCauses } from "./oracle";
import { seeded } from "./seeded";

interface Shape {
  causes: number;
  findings: number;
  density: number;
  inhibitors: boolean;
  states: readonly ("on" | "off" | "soft")[];
}

function randomClaim(random: () => number, { causes, findings, density, inhibitors, states }: Shape) {
  const network: NoisyOrNetwork = { priors: Array.from({ length: causes }, () => 0.01 + 0.3 * random()) };
  const some = () =>
    network.priors.flatMap((_, cause) => (random() < density ? [{ cause, strength: random() < 0.05 ? 1 : random() }] : []));
  const evidence = Array.from({ length: findings }, (): NoisyOrEvidence => {
    const finding: NoisyOrFinding = {
      leak: 0.001 + 0.1 * random(),
      links: some(),
      ...(inhibitors && random() < 0.4 ? { inhibitors: some().map((one) => ({ ...one, strength: one.strength * 0.9 })) } : {}),
    };
    const state = states[Math.floor(random() * states.length)] ?? "on";
    if (state === "on") return { finding, weightOn: 1, weightOff: 0 };
    if (state === "off") return { finding, weightOn: 0, weightOff: 1 };
    return { finding, weightOn: 10 ** (2 * random() - 1), weightOff: 1 };
  });
  return { network, evidence };
}

/** The definition of the noisy-or, summed over every set of causes. */
function bruteForce({ network, evidence }: { network: NoisyOrNetwork; evidence: NoisyOrEvidence[] }) {
  const weightOf = (isThere: readonly number[]) => {
    let weight = network.priors.reduce((product, prior, cause) => product * (isThere[cause] ? prior : 1 - prior), 1);
    for (const { finding, weightOn, weightOff } of evidence) {
      let off = 1 - finding.leak;
      for (const { cause, strength } of finding.links) if (isThere[cause]) off *= 1 - strength;
      let on = 1 - off;
      for (const { cause, strength } of finding.inhibitors ?? []) if (isThere[cause]) on *= 1 - strength;
      weight *= weightOn * on + weightOff * (1 - on);
    }
    return weight;
  };
  const { total, present, absent } = sumOverCauses(network.priors.length, weightOf);
  const noneOfTheFirstTwo = sumOverCauses(network.priors.length, (isThere) => (isThere[0] || isThere[1] ? 0 : weightOf(isThere))).total;
  return { logEvidence: Math.log(total), present, absent, noneOfTheFirstTwo: Math.log(noneOfTheFirstTwo) };
}

/** Sums and products of non-negative numbers alone lose some 1e-15 a step; logarithms of the evidence reach about 50. */
const TOLERANCE = 1e-12;

function expectAgreement(claim: { network: NoisyOrNetwork; evidence: NoisyOrEvidence[] }) {
  const expected = bruteForce(claim);
  const posterior = inferCauses(claim.network, claim.evidence);
  if (posterior.outcome === "contradiction") throw new Error("every network here has leaks");
  expect(Math.abs(posterior.logEvidence - expected.logEvidence)).toBeLessThan(TOLERANCE);
  expect(Math.abs(logEvidenceOf(claim.network, claim.evidence, new Set([0, 1])) - expected.noneOfTheFirstTwo)).toBeLessThan(TOLERANCE);
  expected.present.forEach((value, cause) => {
    expect(Math.abs((posterior.present[cause] ?? Number.NaN) - value)).toBeLessThan(TOLERANCE);
    expect(Math.abs((posterior.absent[cause] ?? Number.NaN) - (expected.absent[cause] ?? Number.NaN))).toBeLessThan(TOLERANCE);
  });
}

describe("inference agrees with plain enumeration", () => {
  it("on 500 random networks with seen, absent and soft findings, half of them with inhibitors", () => {
    for (let seed = 1; seed <= 500; seed++) {
      const random = seeded(seed);
      const causes = 2 + Math.floor(random() * 8);
      const findings = 1 + Math.floor(random() * 8);
      expectAgreement(randomClaim(random, { causes, findings, density: 0.2 + 0.6 * random(), inhibitors: seed % 2 === 0, states: ["on", "off", "soft"] }));
    }
  });

  it("when more findings tie causes together than the subset programme takes", () => {
    for (const inhibitors of [false, true]) {
      const claim = randomClaim(seeded(inhibitors ? 7 : 8), { causes: 12, findings: 20, density: 0.5, inhibitors, states: ["on"] });
      expectAgreement(claim);
    }
  });

  it("when enumeration goes in blocks, beside the subset programme", () => {
    const shape = { causes: 14, findings: 12, density: 0.4, inhibitors: false, states: ["on", "soft"] } as const;
    const { network, evidence } = randomClaim(seeded(3), shape);
    // Findings that say nothing (twice as likely either way) but tie causes, so that the fallback is taken.
    const mute = evidence.map(({ finding }): NoisyOrEvidence => ({ finding, weightOn: 1, weightOff: 1 }));
    const bySubsets = inferCauses(network, evidence);
    const byEnumeration = inferCauses(network, [...evidence, ...mute]);
    if (bySubsets.outcome === "contradiction" || byEnumeration.outcome === "contradiction") throw new Error("has leaks");
    expect(byEnumeration.logEvidence).toBeCloseTo(bySubsets.logEvidence, 10);
    bySubsets.present.forEach((value, cause) => {
      expect(byEnumeration.present[cause]).toBeCloseTo(value, 11);
    });
  });
});

describe("inference keeps its footing", () => {
  it("with evidence so improbable that plain products would vanish", () => {
    const rare: NoisyOrFinding = { leak: 1e-10, links: [{ cause: 0, strength: 1e-10 }] };
    const ofBoth: NoisyOrFinding = { leak: 1e-20, links: [{ cause: 0, strength: 1e-20 }, { cause: 1, strength: 1e-20 }] };
    const evidence = [...Array<NoisyOrFinding>(50).fill(rare), ...Array<NoisyOrFinding>(12).fill(ofBoth)].map((finding) => ({ finding, weightOn: 1, weightOff: 0 }));
    const posterior = inferCauses({ priors: [0.5, 0.5] }, evidence);
    if (posterior.outcome === "contradiction") throw new Error("possible, if barely");
    // Neither 1, the first 2^50 * 2^12, the second 2^12, both 2^50 * 3^12, times 0.25 * 1e-740; to 1e-7,
    // because two chances of 1e-10 together are 2e-10 less 1e-20.
    expect(posterior.logEvidence).toBeCloseTo(Math.log(0.25 * (1 + 2 ** 62 + 2 ** 12 + 2 ** 50 * 3 ** 12)) - 740 * Math.LN10, 7);
    expect(posterior.present[1]).toBeCloseTo(3 ** 12 / (2 ** 12 + 3 ** 12), 12);
  });

  it("reads log-odds exactly where the probability rounds to 1", () => {
    const sure: NoisyOrFinding = { leak: 1e-9, links: [{ cause: 0, strength: 0.9 }] };
    const posterior = inferCauses({ priors: [0.5] }, [sure, sure, sure].map((finding) => ({ finding, weightOn: 1, weightOff: 0 })));
    if (posterior.outcome === "contradiction") throw new Error("possible");
    expect(posterior.absent[0]).toBeCloseTo((1e-9 / 0.9) ** 3, 30);
  });
});
