import { describe, expect, it } from "vitest";
import { beliefIn } from "@/lib/domain/diagnosis/belief";
import { beforeCheck, outcomesOfCheck } from "@/lib/domain/diagnosis/check-outcomes";
import { type ClaimNetwork, claimNetwork } from "@/lib/domain/diagnosis/claim-network";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import { inferCauses, logEvidenceOf } from "@/lib/domain/diagnosis/infer-causes";
import type { Edition, FindingDefinition, Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { decide, USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { type StandingObservation, standingObservations } from "@/lib/domain/diagnosis/standing-observations";
import { drawn } from "./drawn-claims";
import { pocket } from "./pocket-edition";

/** What would be known with one more thing told, all put together anew. */
function anew({ network, evidence }: ClaimNetwork, edition: Edition) {
  const posterior = inferCauses(network, evidence);
  if (posterior.outcome === "contradiction") return null;
  const unit = new Set(edition.causes.flatMap(({ attribution }, place) => (attribution === "unit" ? [place] : [])));
  return { ...posterior, unitDefective: 1 - Math.exp(logEvidenceOf(network, evidence, unit) - posterior.logEvidence) };
}

function toldAs(definition: FindingDefinition, observer: Observer, answer: string): StandingObservation {
  if (definition.kind === "circumstance") return { kind: "circumstance", definition, observer, shown: answer };
  const on = answer === "present" ? 1 : 0;
  return { kind: "evidence", definition, observer, shown: answer, weightOn: on, weightOff: 1 - on };
}

/** Compares every outcome of every check that nobody has made with the slow way; tells how many were compared. */
function compareAll(observations: readonly Observation[], edition: Edition): number {
  const { counted } = standingObservations(observations, edition);
  const before = beforeCheck(counted, edition, NO_CONTEXT);
  if (!before) throw new Error("what was drawn is possible");
  let compared = 0;
  for (const definition of edition.findings) {
    if (observations.some(({ finding }) => finding === definition.code)) continue;
    for (const observer of definition.observers) {
      for (const outcome of outcomesOfCheck(definition, observer, before)) {
        const slow = anew(claimNetwork([...counted, toldAs(definition, observer, outcome.answer)], edition), edition);
        expect(Math.abs(outcome.logEvidence - (slow?.logEvidence ?? Number.NaN))).toBeLessThan(1e-12);
        expect(Math.abs(outcome.unitDefective - (slow?.unitDefective ?? Number.NaN))).toBeLessThan(1e-12);
        expect(outcome.causes).toHaveLength(edition.causes.length);
        outcome.causes.forEach((probability, cause) => {
          expect(Math.abs(probability - (slow?.present[cause] ?? Number.NaN))).toBeLessThan(1e-12);
        });
        compared += 1;
      }
    }
  }
  return compared;
}

describe("outcomes of a check, told from what is known before it", () => {
  it.each([0, 1, 3, 6, 10, 15, 22, 30])("are those of a claim put together anew with the answer, %i findings being told", (count) => {
    for (const seed of [1, 2]) expect(compareAll(drawn(100 * seed + count, count), edition1)).toBeGreaterThan(30);
  });

  it("make no decision dearer on the average, whatever the look: the value of a sign is never below zero", () => {
    const costOf = (known: { unitDefective: number; causes: readonly number[] }) => decide(beliefIn(known, edition1), USUAL_STAKES).cost;
    let valued = 0;
    for (const count of [2, 5, 9, 14]) {
      const observations = drawn(count, count);
      const before = beforeCheck(standingObservations(observations, edition1).counted, edition1, NO_CONTEXT);
      if (!before) throw new Error("what was drawn is possible");
      for (const definition of edition1.findings.filter(({ code, kind }) => kind === "sign" && !observations.some(({ finding }) => finding === code))) {
        const outcomes = outcomesOfCheck(definition, "technician", before);
        const after = outcomes.reduce((sum, outcome) => sum + Math.exp(outcome.logEvidence - before.known.logEvidence) * costOf(outcome), 0);
        // In money: a share of 1e-12 of what a missed defect costs.
        expect(costOf(before.known) - after).toBeGreaterThan(-1e-12 * USUAL_STAKES.missedDefect);
        if (costOf(before.known) - after > 0.01) valued += 1;
      }
    }
    expect(valued).toBeGreaterThan(10);
  });

  it("are worked out by hand in a small edition", () => {
    // F01 wet: none 0.072, C01 0.044, C15 0.0504, both 0.0128. F02 shows in 0.4 of those with C01, by itself never.
    const [f02] = pocket.findings.filter(({ code }) => code === "F02");
    const { counted } = standingObservations([{ finding: "F01", observer: "technician", answer: "present" }], pocket);
    const before = beforeCheck(counted, pocket, NO_CONTEXT);
    if (!f02 || !before) throw new Error("the small edition has it");
    const [wet, dry] = outcomesOfCheck(f02, "technician", before);
    expect(wet).toMatchObject({ answer: "present", share: 1, logEvidence: expect.closeTo(Math.log(0.4 * (0.044 + 0.0128)), 12), unitDefective: expect.closeTo(0.0128 / 0.0568, 12) });
    expect(wet?.causes).toEqual([expect.closeTo(1, 12), expect.closeTo(0.0128 / 0.0568, 12)]);
    const left = 0.072 + 0.0504 + 0.6 * 0.0568;
    expect(dry).toMatchObject({ answer: "absent", logEvidence: expect.closeTo(Math.log(left), 12), unitDefective: expect.closeTo((0.0504 + 0.6 * 0.0128) / left, 12) });
  });

  it("keep their digits for a sign that is hardly ever seen", () => {
    const rarely = { value: 1e-12, provenance: { kind: "judgement" } as const };
    const background = { customer: rarely, technician: rarely, bench: rarely };
    const rare = { ...pocket, findings: pocket.findings.map((one) => (one.code === "F02" && one.kind === "site" ? { ...one, background, links: [] } : one)) };
    expect(compareAll([{ finding: "F01", observer: "technician", answer: "present" }], rare)).toBe(10);
  });

  it("leave out what cannot happen: a sign that nothing shows", () => {
    const never = { ...pocket, findings: pocket.findings.map((one) => (one.code === "F02" && one.kind === "site" ? { ...one, links: [] } : one)) };
    const [f02] = never.findings.filter(({ code }) => code === "F02");
    const before = beforeCheck(standingObservations([{ finding: "F01", observer: "technician", answer: "present" }], never).counted, never, NO_CONTEXT);
    if (!f02 || !before) throw new Error("the small edition has it");
    expect(outcomesOfCheck(f02, "technician", before).map(({ answer }) => answer)).toEqual(["absent"]);
  });
});
