import { describe, expect, test } from "vitest";
import { cycleOfQuestions } from "@/lib/domain/diagnosis/asked-when";
import { type CheckPlan, planChecks, type PlanStep } from "@/lib/domain/diagnosis/check-plan";
import { bestStep, openChecks, type PlanQuestion } from "@/lib/domain/diagnosis/check-plan-step";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import type { Edition, FigurePerObserver, Observer, SignFinding } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { decide, priceOfCheck, USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { editionSchema } from "@/lib/inputs/edition";

const told = (finding: string, answer: string, observer: Observer = "customer"): Observation => ({ finding, observer, answer });
const QUESTION: PlanQuestion = { observers: ["customer", "technician"], stakes: USUAL_STAKES, context: NO_CONTEXT, except: new Set() };
const CLAIMS: readonly (readonly Observation[])[] = [
  [],
  [told("F01", "present"), told("F02", "absent")],
  [told("F01", "absent"), told("F02", "present")],
  [told("F01", "present"), told("F02", "absent"), told("F12", "present", "technician"), told("F24", "intake")],
];

function stepsOf(step: PlanStep, way: readonly string[] = []): { step: PlanStep; way: readonly string[] }[] {
  return [{ step, way }, ...(step.do === "check" ? step.branches.flatMap(({ next }) => stepsOf(next, [...way, step.check.finding])) : [])];
}

/** A plan that must be there. */
function planOf(observations: readonly Observation[], edition: Edition = edition1, question: PlanQuestion = QUESTION): CheckPlan {
  const plan = planChecks(observations, edition, question);
  if (!plan) throw new Error("the findings are possible");
  return plan;
}

describe("a plan of checks", () => {
  test("never costs more than deciding now, never asks twice, and its branches are all there is", () => {
    for (const observations of CLAIMS) {
      const plan = planOf(observations);
      expect(plan.expectedCost).toBeLessThanOrEqual(plan.costNow);
      expect(plan.expectedCost).toBeGreaterThanOrEqual(0);
      for (const { step, way } of stepsOf(plan.first)) {
        if (step.do !== "check") continue;
        expect([...way, ...observations.map(({ finding }) => finding)]).not.toContain(step.check.finding);
        expect(step.branches.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
      }
    }
  });

  test("says to decide now where looking costs more than any decision could", () => {
    const stakes = { ...USUAL_STAKES, minute: { customer: 90, technician: 90, bench: 90 } };
    for (const observations of CLAIMS) {
      const plan = planOf(observations, edition1, { ...QUESTION, stakes });
      expect(plan.first).toEqual({ do: "decide", decision: plan.decisionNow });
      expect(plan.expectedCost).toBe(plan.costNow);
    }
  });

  test("decides by what each decision is expected to cost", () => {
    const leader = { cause: "C01", probability: 0.8 };
    expect(decide({ unitDefective: 0.05, leader }, USUAL_STAKES)).toEqual({ decision: { treatAs: "sound", adviseOn: "C01" }, cost: expect.closeTo(60, 9) });
    expect(decide({ unitDefective: 0.9, leader }, USUAL_STAKES)).toEqual({ decision: { treatAs: "defective" }, cost: expect.closeTo(30, 9) });
    expect(priceOfCheck({ minutes: 40, cost: "low", cautions: ["S2", "S5", "S6"] }, "technician", USUAL_STAKES)).toBeCloseTo(35.5, 12);
  });

  test("leaves out what was asked already, and lets the cheaper of two observers look", () => {
    const [first] = openChecks([], edition1, QUESTION);
    expect(first).toBeDefined();
    const left = openChecks([], edition1, { ...QUESTION, except: new Set([first?.finding ?? ""]) });
    expect(left.map(({ finding }) => finding)).not.toContain(first?.finding);
    const codes = openChecks([], edition1, QUESTION).map(({ finding }) => finding);
    expect(new Set(codes).size).toBe(codes.length);
  });

  test("is null where what was found cannot happen", () => {
    const impossible: Edition = { ...pairs, findings: pairs.findings.map((one) => ({ ...one, links: [], background: same(0) })) };
    expect(planChecks([told("F90", "present")], impossible, QUESTION)).toBeNull();
  });
});

const provenance = { kind: "judgement" } as const;
const same = (value: number): FigurePerObserver => ({ customer: { value, provenance }, technician: { value, provenance }, bench: { value, provenance } });

/**
 * Two causes, each as likely as not and no telling them apart but by F91, which can only be asked once F90 was seen. F90
 * is a coin that tells nothing.
 */
const pairs = (() => {
  const [drain, sag] = edition1.causes;
  const sign = edition1.findings.find((one): one is SignFinding => one.kind === "sign" && one.code === "F12");
  if (!drain || !sag || !sign) throw new Error("edition 1 has them");
  const base = { ...sign, minutes: 1, cautions: [], tools: [] };
  return {
    ...edition1,
    number: 8,
    causes: [{ ...drain, base: { value: 0.5, provenance } }, { ...sag, base: { value: 0.5, provenance } }],
    findings: [
      { ...base, code: "F90", background: same(0.5), links: [] },
      { ...base, code: "F91", askedWhen: { finding: "F90", answers: ["present"] }, background: same(0), links: [{ cause: "C01", strength: same(1) }] },
    ],
    experience: [],
    translations: {},
    samePhysicalFact: [],
    stopRules: [],
  } satisfies Edition;
})();

describe("looking two steps ahead", () => {
  test("finds a check that saves nothing by itself but opens one that does", () => {
    const findings = pairs.findings.map((one) => (one.code === "F90" ? { ...one, links: [{ cause: "C02", strength: same(0.001) }] } : one));
    const edition: Edition = { ...pairs, findings };
    const step = bestStep([], edition, QUESTION);
    expect(step).toMatchObject({ do: "check", check: { finding: "F90" }, together: "F91" });
    expect(bestStep([], edition, QUESTION, "one step")).toMatchObject({ do: "decide" });
    // Asked F91 next: half of the claims come to it, and there it tells C01 apart for sure.
    const open = openChecks([told("F90", "present")], edition, QUESTION);
    const [next] = open;
    expect(open.map(({ finding }) => finding)).toEqual(["F91"]);
    const net = (check: { gain: number; price: number } | undefined) => (check ? check.gain - check.price : Number.NaN);
    const [first] = openChecks([], edition, QUESTION);
    const opened = first?.outcomes.find(({ answer }) => answer === "present")?.probability ?? Number.NaN;
    expect(step?.do === "check" && step.saves).toBeCloseTo(net(first) + opened * net(next), 9);
  });

  test("asks a conditional question never before its condition", () => {
    expect(openChecks([], edition1, QUESTION).map(({ finding }) => finding)).not.toContain("F25");
    expect(openChecks([told("F24", "intake")], edition1, QUESTION).map(({ finding }) => finding)).not.toContain("F25");
    expect(openChecks([told("F24", "open-air"), told("F01", "present")], edition1, QUESTION).map(({ finding }) => finding)).toContain("F25");
  });
});

describe("a cycle of questions", () => {
  const looped: Edition = { ...pairs, findings: pairs.findings.map((one) => (one.code === "F90" ? { ...one, askedWhen: { finding: "F91", answers: ["absent"] } } : one)) };

  test("is found and named, and there is none in edition 1", () => {
    expect(cycleOfQuestions(looped)).toEqual(["F90", "F91", "F90"]);
    expect(cycleOfQuestions(edition1)).toBeNull();
  });

  test("is refused by the schema, with the place and the way round", () => {
    const findings = edition1.findings.map((one) => (one.code === "F24" ? { ...one, askedWhen: { finding: "F25", answers: ["present"] } } : one));
    const parsed = editionSchema.safeParse({ ...edition1, findings });
    const place = findings.findIndex(({ code }) => code === "F24");
    expect(parsed.error?.issues.map(({ path, message }) => [path.join("."), message])).toEqual([
      [`findings.${place}.askedWhen`, "F24 waits for F25 waits for F24: none of them would ever be asked."],
    ]);
  });

  test("and so is a condition on a finding or an answer that is not there", () => {
    const findings = edition1.findings.map((one) => (one.code === "F25" ? { ...one, askedWhen: { finding: "F24", answers: ["the-moon"] } } : one));
    expect(editionSchema.safeParse({ ...edition1, findings }).error?.issues.map(({ message }) => message)).toContain("the-moon is not an answer to F24.");
  });
});
