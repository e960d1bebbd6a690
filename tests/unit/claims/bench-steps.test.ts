import { describe, expect, test } from "vitest";
import { benchSteps, CLOSED_OUTLET, observerAtBench } from "@/lib/domain/claims/bench-steps";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Edition, SignFinding } from "@/lib/domain/diagnosis/knowledge";

const codesOf = (edition: Edition) => Object.fromEntries(benchSteps(edition).map(({ step, findings }) => [step, findings.map(({ code }) => code)]));

describe("the steps of an inspection", () => {
  test("ask every finding of the edition that the bench can answer once, and no site", () => {
    const asked = Object.values(codesOf(edition1)).flat();
    const answerable = edition1.findings.filter((finding) => observerAtBench(finding) !== null && finding.code !== CLOSED_OUTLET.finding).map(({ code }) => code);
    expect([...asked].sort()).toEqual([...answerable].sort());
    for (const site of ["F01", "F02", "F05"]) expect(asked).not.toContain(site);
  });

  test("of edition 1 have a place for each, with the rig before the strip-down", () => {
    const steps = codesOf(edition1);
    expect(steps).not.toHaveProperty("other");
    expect(steps).toMatchObject({ fore_and_aft: ["F40", "F41"], rings: ["F45"], rig: ["F48"] });
    expect(Object.keys(steps).indexOf("rig")).toBeLessThan(Object.keys(steps).indexOf("rings"));
  });

  test("ask what an edition adds for the bench at the end", () => {
    const ring = edition1.findings.find(({ code }) => code === "F45") as SignFinding;
    const added = { ...edition1, findings: [...edition1.findings, { ...ring, code: "F64", name: "Colour of the oil" }] };
    expect(codesOf(added).other).toEqual(["F64"]);
  });
});
