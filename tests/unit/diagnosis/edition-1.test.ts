import { describe, expect, it } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { backgroundFromRatio, figuresFromRatios, linkFromRatio } from "@/lib/domain/diagnosis/figures-from-ratios";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { editionSchema } from "@/lib/inputs/edition";
import { complaintRate, JUDGED_SHARES, sharesOf } from "./shares-among-complaints";

/** Issues of a broken edition, as "path: message". */
function issuesOf(edition: Edition): string[] {
  const parsed = editionSchema.safeParse(edition);
  return parsed.success ? [] : parsed.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`);
}

describe("edition 1", () => {
  it("passes the schema of an edition, also after a journey through JSON", () => {
    expect(issuesOf(edition1)).toEqual([]);
    expect(editionSchema.parse(JSON.parse(JSON.stringify(edition1)))).toEqual(edition1);
  });

  it("has every cause and every finding of the table, the state on arrival, and what physics needs beside", () => {
    const numbered = (letter: string, last: number) => Array.from({ length: last }, (_, i) => `${letter}${String(i + 1).padStart(2, "0")}`);
    expect(edition1.causes.map(({ code }) => code)).toEqual(numbered("C", 23));
    expect(edition1.findings.map(({ code }) => code).sort()).toEqual(numbered("F", 63));
  });

  it("asks owners nothing that is for technicians or the bench", () => {
    const forTechnicians = ["F16", "F17", "F18", "F19", "F28", "F29", "F30", "F31", "F32", "F35", "F38", "F39", "F40", "F41", "F42", "F50", "F56", "F59", "F60", "F61"];
    const forNobody = ["F63"];
    const forTheBench = ["F45", "F46", "F47", "F48", "F49"];
    for (const { code, observers, cautions } of edition1.findings) {
      const isForOwners = !forTechnicians.includes(code) && !forTheBench.includes(code) && !forNobody.includes(code);
      expect([code, observers.includes("customer")]).toEqual([code, isForOwners]);
      if (isForOwners) expect([code, cautions.includes("S6")]).toEqual([code, false]);
    }
  });

  it.each(JUDGED_SHARES)("reproduces the judged shares within a factor 1.3: $place", ({ observations, shares }) => {
    const modelled = sharesOf(observations, edition1);
    for (const [group, judged] of Object.entries(shares)) {
      const factor = modelled[group as keyof typeof modelled] / judged;
      expect([group, factor > 1 / 1.3 && factor < 1.3]).toEqual([group, true]);
    }
  });

  it("expects about 25 complaints per 1,000 fitted units", () => {
    expect(complaintRate(edition1)).toBeGreaterThan(0.02);
    expect(complaintRate(edition1)).toBeLessThan(0.03);
  });
});

describe("ratios become figures", () => {
  it("that give the ratios back", () => {
    const { background, links } = figuresFromRatios([{ cause: "C01", plus: 12, minus: 0.05 }, { cause: "C15", plus: 2 }], { kind: "judgement" });
    for (const [observer, plus, minus, other] of [["technician", 12, 0.05, 2], ["customer", Math.sqrt(12), Math.sqrt(0.05), Math.sqrt(2)]] as const) {
      const b = background[observer].value;
      const [lead = 0, second = 0] = links.map(({ strength }) => strength[observer].value);
      expect((1 - (1 - b) * (1 - lead)) / b).toBeCloseTo(plus, 12);
      expect(1 - lead).toBeCloseTo(minus, 12);
      expect((1 - (1 - b) * (1 - second)) / b).toBeCloseTo(other, 12);
    }
  });

  it("as computed by hand", () => {
    expect(backgroundFromRatio(12, 0.95)).toBeCloseTo(0.95 / 11.95, 15);
    expect(linkFromRatio(2, 0.2)).toBeCloseTo(0.25, 15);
  });
});

describe("the schema of an edition", () => {
  const [firstCause, ...otherCauses] = edition1.causes;
  if (!firstCause) throw new Error("edition 1 has causes");

  it("refuses a cause that no finding can show, and names it", () => {
    const lonely: Edition = { ...edition1, causes: [...edition1.causes, { ...firstCause, code: "C99" }] };
    expect(issuesOf(lonely)).toEqual(["causes.23: C99 is shown by no finding: nothing could ever speak for it."]);
  });

  it("refuses a link to a cause that is not there", () => {
    expect(issuesOf({ ...edition1, causes: otherCauses })).toContain(
      "findings.11.links.0.cause: C01 is not a cause of this edition.",
    );
  });

  it("refuses codes that are there twice and figures that are no probabilities", () => {
    const twice: Edition = { ...edition1, causes: [...edition1.causes, firstCause] };
    expect(issuesOf(twice)).toEqual(["causes.23.code: C01 is there twice."]);
    const impossible: Edition = { ...edition1, causes: [{ ...firstCause, base: { ...firstCause.base, value: 1.2 } }, ...otherCauses] };
    expect(issuesOf(impossible)[0]).toMatch(/^causes\.0\.base\.value: /);
  });

  it("refuses a stop rule on an answer that cannot be given", () => {
    const rule = { reason: "wheel-contact", when: [{ finding: "F43", answer: "perhaps" }], unless: null } as const;
    expect(issuesOf({ ...edition1, stopRules: [rule] })).toEqual(["stopRules.0.when.0.answer: perhaps is not an answer to F43."]);
  });
});
