import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { findingsFromAnswers } from "@/lib/domain/intake/findings-from-answers";
import { type IntakeState, NOTHING_KNOWN } from "@/lib/domain/intake/questions";

const told = (oil: Record<string, string>, more: IntakeState["answers"] = {}, purchase: Partial<IntakeState["purchase"]> = {}) => {
  const findings = findingsFromAnswers({ answers: { who: { who: "technician" }, oil, ...more }, purchase: { ...NOTHING_KNOWN, ...purchase } }, edition1);
  return Object.fromEntries(findings.map(({ code, answer, measured }) => [code, answer ?? measured]));
};

describe("the findings in a customer's answers", () => {
  test("oil in one place says nothing of the others unless they were looked at", () => {
    expect(told({ place: "turbine", elsewhere: "unseen" })).toMatchObject({ F01: "present", F02: "unknown", F05: "unknown" });
    expect(told({ place: "turbine", elsewhere: "dry" })).toMatchObject({ F01: "present", F02: "absent", F05: "absent" });
    expect(told({ place: "both" })).toMatchObject({ F01: "present", F02: "present", F05: "unknown" });
    expect(told({ place: "unseen", elsewhere: "dry" })).toMatchObject({ F01: "unknown", F02: "unknown", F05: "unknown" });
  });

  test("a measurement is kept in the edition's unit beside what was typed", () => {
    const [bore] = findingsFromAnswers(
      { answers: { who: { who: "technician" }, oil: { place: "turbine", elsewhere: "dry" }, "drain-size": { F13: "0,5", "F13-unit": "in" } }, purchase: NOTHING_KNOWN },
      edition1,
    ).filter(({ code }) => code === "F13");
    expect(bore).toMatchObject({ measured: 12.7, typedValue: "0,5", typedUnit: "in", answer: null });
  });

  test("a kit that holds one unit of a two-stage set tells which", () => {
    expect(told({ place: "compressor" }, {}, { staging: "low_pressure" })).toMatchObject({ F37: "low-pressure" });
    expect(told({ place: "compressor" })).not.toHaveProperty("F37");
  });

  test("answers on screens that no longer apply are left out", () => {
    expect(told({ place: "turbine" }, { vent: { F24: "intake" }, "vent-element": { F25: "present" } })).not.toHaveProperty("F25");
    expect(told({ place: "turbine" }, { vent: { F24: "open-air" }, "vent-element": { F25: "present" } })).toHaveProperty("F25");
  });
});
