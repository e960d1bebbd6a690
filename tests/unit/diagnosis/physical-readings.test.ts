import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkObservation } from "@/lib/domain/diagnosis/check-observation";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Edition, MeasuredFinding, Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { clearReading, factOf } from "@/lib/domain/diagnosis/physical-facts";
import { physicalReadings, type StandingReading } from "@/lib/domain/diagnosis/physical-readings";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import type { Ranked } from "@/lib/domain/diagnosis/ranking";
import { pocket } from "./pocket-edition";
import { oneObservationEach, standingObservations } from "@/lib/domain/diagnosis/standing-observations";
import { storedNumber } from "@/lib/domain/intake/fields";
import { findingField } from "@/lib/domain/intake/screens";
import { editionSchema } from "@/lib/inputs/edition";
import { sayIn } from "@/lib/messages/words";
import { seededNormals } from "../physics/seeded-normals";

const told = (finding: string, answer: string, observer: Observer = "technician"): Observation => ({ finding, observer, answer });
const measured = (finding: string, value: number, observer: Observer = "technician"): Observation => ({ finding, observer, measured: value });

const readings = (...observations: Observation[]): StandingReading[] => physicalReadings(oneObservationEach(observations), edition1);
function ratioOf(finding: string, ...observations: Observation[]): number {
  return readings(...observations).find(({ definition }) => definition.code === finding)?.ratio ?? Number.NaN;
}

const turbineOnly = [told("F01", "present"), told("F02", "absent")];
const compressorOnly = [told("F01", "absent"), told("F02", "present")];
const goodRun = [measured("F14", 180), measured("F52", 300), measured("F53", 28)];

function rank(...observations: Observation[]): Ranked {
  const ranking = rankCauses(observations, edition1);
  if (ranking.outcome === "contradiction") throw new Error("edition 1 explains everything somehow");
  return ranking;
}
const leaderOf = (...observations: Observation[]) => rank(...observations).causes[0]?.code;
const chanceOf = (code: string, ...observations: Observation[]) => rank(...observations).causes.find((cause) => cause.code === code)?.probability ?? Number.NaN;

const measurements = edition1.findings.filter((one): one is MeasuredFinding => one.kind === "measurement" && one.observers.length > 0);
const anyMeasurements: fc.Arbitrary<Observation[]> = fc
  .subarray(measurements)
  .chain((some) => fc.tuple(...some.map(({ code, plausible, observers }) => fc.tuple(fc.constantFrom(...observers), fc.double({ ...plausible, noNaN: true })).map(([observer, value]) => measured(code, value, observer)))));

describe("each measured fact lands on its own cause", () => {
  it("a level run on the run of the drain, not on its bore", () => {
    const level = [...turbineOnly, measured("F53", 0), measured("F13", 19), measured("F14", 120)];
    expect(leaderOf(...level)).toBe("C01");
    expect(chanceOf("C03", ...level)).toBeLessThan(chanceOf("C03", ...turbineOnly));
    expect(ratioOf("F13", ...level)).toBe(ratioOf("F13", ...turbineOnly, measured("F13", 19), measured("F14", 120)));
  });

  it("a bore found from the outside of the hose as less than one measured across, and never as more", () => {
    const across = ratioOf("F13", measured("F13", 8), ...goodRun);
    const outside = (spread: number) => ratioOf("F13", { finding: "F13", observer: "technician", measured: 8, spread }, ...goodRun);
    expect(outside(1.7)).toBeLessThan(0.9 * across);
    expect(outside(0.1)).toBe(across);
  });

  it("a short fall likewise, though no stretch of it is level", () => {
    const short = [...turbineOnly, measured("F14", 25), told("F12", "absent"), measured("F13", 19)];
    expect(leaderOf(...short)).toBe("C01");
  });

  it("8 mm of bore at a good fall on the bore, not on the run", () => {
    const narrow = [...turbineOnly, measured("F13", 8), ...goodRun];
    expect(leaderOf(...narrow)).toBe("C03");
    expect(chanceOf("C03", ...narrow)).toBeGreaterThan(0.4);
    expect(chanceOf("C01", ...narrow)).toBeLessThan(0.25 * chanceOf("C01", ...turbineOnly));
  });

  it("elbows on the width as well: four of them make a fair bore short", () => {
    expect(ratioOf("F13", measured("F13", 15), measured("F54", 4))).toBeGreaterThan(3 * ratioOf("F13", measured("F13", 15)));
  });

  it("crankcase pressure on the crankcase, and with much blow-by on the engine", () => {
    const pressure = [...turbineOnly, measured("F13", 19), ...goodRun, measured("F29", 1.5)];
    expect(["C06", "C07", "C08"]).toContain(leaderOf(...pressure));
    expect(leaderOf(...pressure, measured("F30", 190))).toBe("C08");
    expect(["C06", "C07"]).toContain(leaderOf(...pressure, measured("F30", 40)));
    // A short fall is the drain's fault: the same pressure is not held against the crankcase any harder.
    expect(ratioOf("F29", measured("F29", 0.2), measured("F14", 20))).toBeLessThan(1);
  });

  it("a narrow vent hose on the conversion, judged at a sound engine's blow-by", () => {
    const narrow = [...turbineOnly, measured("F26", 7), measured("F55", 2)];
    expect(leaderOf(...narrow)).toBe("C06");
    expect(ratioOf("F26", ...narrow, measured("F30", 300))).toBe(ratioOf("F26", ...narrow));
    expect(ratioOf("F26", measured("F26", 16))).toBeLessThan(0.2);
  });

  it("a filter rated below what the engine draws on the intake, and nothing without the engine's displacement", () => {
    const small = [...compressorOnly, told("F24", "open-air"), measured("F57", 250), measured("F58", 2)];
    expect(leaderOf(...small)).toBe("C11");
    expect(chanceOf("C11", ...small)).toBeGreaterThan(chanceOf("C11", ...compressorOnly, told("F24", "open-air")));
    expect(ratioOf("F57", measured("F57", 1400), measured("F58", 2))).toBeLessThan(0.1);
    expect(readings(measured("F57", 250))).toEqual([]);
    expect(chanceOf("C11", ...compressorOnly, measured("F57", 250))).toBeCloseTo(chanceOf("C11", ...compressorOnly), 14);
  });

  it("a missing restrictor on the feed, but only of a unit on ball bearings", () => {
    const bare = [...turbineOnly, measured("F13", 19), ...goodRun, measured("F29", 0.05), told("F17", "absent"), measured("F56", 0)];
    expect(leaderOf(...bare, told("F62", "ball"))).toBe("C10");
    expect(ratioOf("F56", ...bare, told("F62", "ball"))).toBeGreaterThan(20);
    expect(ratioOf("F38", measured("F56", 1), measured("F38", 3.1), told("F62", "ball"))).toBeLessThan(0.05);
    for (const bearing of [told("F62", "journal"), told("F09", "by-hand")]) {
      expect(readings(measured("F56", 0), bearing)).toEqual([]);
      expect(ratioOf("F38", measured("F56", 0), measured("F38", 6.5), bearing)).toBeGreaterThan(20);
      expect(ratioOf("F38", measured("F56", 0), measured("F38", 3.5), bearing)).toBeLessThan(0.05);
    }
  });

  it("an angle on the attitude, whichever of the two it is", () => {
    expect(leaderOf(...turbineOnly, measured("F20", 50))).toBe("C05");
    expect(leaderOf(...turbineOnly, measured("F20", 3), measured("F21", 30))).toBe("C05");
    expect(ratioOf("F20", measured("F20", 3))).toBeGreaterThan(4 * ratioOf("F20", measured("F20", 3), measured("F21", 2)));
  });

  it("axial play on the thrust bearing, radial play by its place", () => {
    expect(leaderOf(...turbineOnly, measured("F41", 0.3))).toBe("C16");
    expect(ratioOf("F42", measured("F42", 0.45))).toBeGreaterThan(50);
    expect(ratioOf("F61", measured("F61", 0.45))).toBeLessThan(0.2);
  });
});

describe("margins add up", () => {
  const drain = [measured("F13", 14), measured("F14", 160), measured("F52", 300)];
  const together = [...turbineOnly, ...drain, measured("F29", 0.5)];

  it("leads where drain and crankcase are each tolerable and together not", () => {
    const ratios = readings(...together);
    for (const code of ["F13", "F14", "F29"]) expect([code, (ratios.find(({ definition }) => definition.code === code)?.fallingShort ?? 1) < 0.5]).toEqual([code, true]);
    expect(ratioOf("F63", ...together)).toBeGreaterThan(5);
    expect(leaderOf(...together)).toBe("C23");
    expect(rank(...together).steps.find(({ finding }) => finding === "F63")?.answer).toMatch(/^-\d+ mm$/);
  });

  it("is told in words, as every reading is: what follows, the limit, the probability of falling short", () => {
    const words = new Map(rank(...together).steps.map(({ finding, reading }) => [finding, reading]));
    expect(words.get("F13")).toMatch(/^[\d.]+ \u00b1 [\d.]+ l\/min against a limit of 2.5; falls short with \d+ %$/);
    expect(words.get("F63")).toMatch(/ mm of oil against a limit of \d+; short only together, with \d+ %; 2 % before anybody measured$/);
    expect(words.get("F01")).toBeUndefined();
  });

  it("does not where one of the two explains it alone, or nothing is short", () => {
    expect(["C06", "C07", "C08"]).toContain(leaderOf(...turbineOnly, measured("F13", 19), ...goodRun, measured("F29", 2)));
    expect(leaderOf(...turbineOnly, measured("F13", 8), ...goodRun, measured("F29", 0.15))).toBe("C03");
    expect(ratioOf("F63", measured("F13", 22), ...goodRun, measured("F29", 0.05))).toBeLessThan(1);
  });

  it("is computed only from all three, and nobody can tell it", () => {
    for (const one of ["F13", "F14", "F29"]) expect(readings(...together.filter(({ finding }) => finding !== one)).some(({ definition }) => definition.code === "F63")).toBe(false);
    expect(checkObservation(measured("F63", -20), edition1)).toEqual({ ok: false, reason: "not-for-this-observer" });
  });

  it("is as rare beforehand as a simulation of drains and crankcases says", () => {
    const deviate = seededNormals(7);
    const draws = 1500;
    let sum = 0;
    for (let i = 0; i < draws; i++) {
      const one = [measured("F13", 15 * Math.exp(0.2 * deviate())), measured("F14", 120 * Math.exp(0.4 * deviate())), measured("F29", 0.15 * Math.exp(0.8 * deviate()))];
      sum += readings(...one).find(({ definition }) => definition.code === "F63")?.fallingShort ?? Number.NaN;
    }
    // The figure is kept to one digit.
    expect(Math.abs(sum / draws - 0.02)).toBeLessThan(0.005);
  });
});

describe("what is counted", () => {
  it("the margin in place of the answers it is made of, and several numbers as one reading", () => {
    const { counted, setAside } = standingObservations(
      [told("F12", "absent"), measured("F14", 60), measured("F53", 10), measured("F52", 300), told("F15", "present"), measured("F13", 12), measured("F54", 2), told("F28", "present"), measured("F29", 0.3), told("F23", "15w-40")],
      edition1,
    );
    expect(counted.map(({ definition }) => definition.code)).toEqual(["F23", "F13", "F53", "F29", "F63"]);
    expect(setAside.map(({ definition }) => definition.code).sort()).toEqual(["F12", "F14", "F15", "F28", "F52", "F54"]);
  });

  it("a fact once, however many numbers tell it", () => {
    fc.assert(
      fc.property(anyMeasurements, (observations) => {
        const facts = readings(...observations).map(({ definition }) => factOf(definition.quantity));
        expect(new Set(facts).size).toBe(facts.length);
      }),
      { numRuns: 100, seed: 1 },
    );
  });

  it("what was said of the run as far as such answers are right, where only the fall was measured", () => {
    const fall = measured("F14", 150);
    const said = (answer: string, observer: Observer) => ratioOf("F14", fall, told("F12", answer, observer));
    expect(said("present", "technician")).toBeGreaterThan(said("present", "customer"));
    expect(said("present", "customer")).toBeGreaterThan(ratioOf("F14", fall));
    expect(said("absent", "technician")).toBeLessThan(ratioOf("F14", fall));
  });

  it("a thicker oil against the drain, and an owner's guess for less than a technician's measure", () => {
    const bore = measured("F13", 14);
    expect(ratioOf("F13", bore, told("F23", "20w-50"))).toBeGreaterThan(ratioOf("F13", bore, told("F23", "5w-30")));
    for (const [finding, value] of [["F13", 9], ["F14", 25], ["F53", -5]] as const) {
      expect(ratioOf(finding, measured(finding, value, "customer"))).toBeLessThan(ratioOf(finding, measured(finding, value)));
    }
  });
});

describe("readings behave", () => {
  it("are finite whatever is plausible, and never surer than gross errors allow", () => {
    fc.assert(
      fc.property(anyMeasurements, fc.constantFrom("5w-30", "20w-50", "other"), fc.constantFrom("ball", "journal"), (observations, grade, bearing) => {
        for (const { ratio, before, fallingShort, margin } of readings(...observations, told("F23", grade), told("F62", bearing))) {
          expect(fallingShort).toBeGreaterThanOrEqual(0);
          expect(fallingShort).toBeLessThanOrEqual(1);
          expect((ratio * before) / (1 - before)).toBeGreaterThan(0.0101);
          expect((ratio * before) / (1 - before)).toBeLessThan(99.01);
          for (const figure of [margin.value, margin.spread, margin.limit, margin.margin]) expect(Number.isFinite(figure)).toBe(true);
        }
      }),
      { numRuns: 300, seed: 2 },
    );
  });

  it.each(measurements.filter(({ links }) => links.length > 0).map((one) => [one.code, one] as const))("%s gets worse one way only, and never jumps", (code, definition) => {
    const beside = code === "F57" ? [measured("F58", 3)] : code === "F56" ? [told("F62", "ball")] : [];
    const [good, bad] = [clearReading(definition, false), clearReading(definition, true)];
    // From where it matters: near 0 the logarithm of a bore runs away.
    const steps = Array.from({ length: 2001 }, (_, i) => good + ((bad - good) * i) / 2000).filter((value) => code !== "F56" || value > 0.3);
    const logs = steps.map((value) => Math.log(ratioOf(code, measured(code, value), ...beside)));
    for (const [i, log] of logs.entries()) {
      const before = logs[i - 1] ?? log;
      expect(log).toBeGreaterThan(before - 1e-9);
      expect(log - before).toBeLessThan(0.5);
    }
    expect(logs.at(-1)).toBeGreaterThan(3);
    expect(logs[0]).toBeLessThan(-2);
  });

  it("are the same whether metric or imperial was typed", () => {
    // Metric values by the definitions of the units: inch, foot, inch of water at 4 degC, pound-force per square inch.
    for (const [code, metric, imperial, unit, beside] of [
      ["F13", 15.875, "5/8", "in", []],
      ["F14", 152.4, "6", "in", []],
      ["F55", 1.524, "5", "ft", [measured("F26", 10)]],
      ["F29", 5 * 0.24908891, "5", "inH2O", []],
      ["F29", 0.1 * 6.894757293168, "0.1", "psi", []],
      ["F30", (225 * 28.316846592) / 60, "225", "ft3/h", []],
      ["F35", 25 * 0.24908891, "25", "inH2O", []],
      ["F38", 80 * 0.06894757293168, "80", "psi", []],
      ["F57", 300 * 1.69901079552, "300", "ft3/min", [measured("F58", 2)]],
      ["F41", 0.2032, "0.008", "in", []],
    ] as const) {
      const definition = edition1.findings.find((one) => one.code === code);
      const field = definition && findingField(definition, sayIn("en"));
      if (field?.kind !== "number") throw new Error(`${code} is a number`);
      const read = (value: number) => readings(measured(code, value), ...beside)[0]?.ratio ?? Number.NaN;
      expect([code, Math.abs(read(metric) - read(storedNumber(field, imperial, unit) ?? Number.NaN)) < 1e-9]).toEqual([code, true]);
    }
  });
});

describe("the schema of an edition, for what physics needs", () => {
  const issuesOf = (edition: unknown) => {
    const parsed = editionSchema.safeParse(edition);
    return parsed.success ? [] : parsed.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`);
  };
  const changed = (code: string, change: object): Edition => ({ ...edition1, findings: edition1.findings.map((one) => (one.code === code ? ({ ...one, ...change } as MeasuredFinding) : one)) });
  const placeOf = (code: string) => edition1.findings.findIndex((one) => one.code === code);

  it("refuses a number that nobody observes, and one that nothing holds against anything", () => {
    expect(issuesOf(changed("F41", { observers: [] }))).toEqual([`findings.${placeOf("F41")}.observers: Nobody can observe F41.`]);
    expect(issuesOf(changed("F41", { limit: null }))).toEqual([`findings.${placeOf("F41")}.limit: F41 needs a limit: physics gives none for it.`]);
    expect(issuesOf(changed("F13", { limit: null }))).toEqual([]);
  });

  it("refuses an exact reading and an assumption that is none", () => {
    const exact = { absolute: 0, share: 0 };
    expect(issuesOf(changed("F13", { accuracy: { customer: exact, technician: exact, bench: exact } }))[0]).toContain("accuracy.customer: No reading is exact");
    const { oilSentJournal, ...others } = edition1.references;
    expect(issuesOf({ ...edition1, references: others })[0]).toContain("references.oilSentJournal");
    expect(issuesOf({ ...edition1, references: { ...others, oilSentJournal: { ...oilSentJournal, value: -2 } } })[0]).toContain("references.oilSentJournal.value");
  });
});

describe("an edition typed by hand", () => {
  const [one, two, bore] = pocket.findings;
  if (!one || two?.kind !== "site" || bore?.kind !== "measurement") throw new Error("the pocket edition has two sites and a number");

  it("may have two numbers of which physics knows nothing: each is read against its own limit", () => {
    const edition = { ...pocket, findings: [one, two, bore, { ...bore, code: "F14", limit: { ...bore.limit, value: 30 } }] };
    const read = (observations: Observation[]) => physicalReadings(oneObservationEach(observations), edition).map(({ definition, shown, ratio }) => ({ code: definition.code, shown, ratio }));
    const [first, second] = [{ finding: "F13", observer: "customer", measured: 9 }, { finding: "F14", observer: "customer", measured: 31 }] as const;
    expect(read([first, second])).toEqual([...read([first]), ...read([second])]);
    expect(read([second])[0]?.ratio).toBeLessThan(1);
  });

  it("may have signs that prove something: of those that speak of one fact the first proof counts", () => {
    const proof = { ...two, background: one.background };
    const edition = { ...pocket, findings: [one, { ...proof, code: "F03" }, two, { ...two, code: "F04" }, bore], samePhysicalFact: [["F03", "F02", "F04"]] };
    const seen = (finding: string) => ({ finding, observer: "customer" as const, answer: "present" });
    const { counted } = standingObservations(["F03", "F02", "F04"].map(seen), edition);
    expect(counted.map(({ definition }) => definition.code)).toEqual(["F02"]);
  });
});
