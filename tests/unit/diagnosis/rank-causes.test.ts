import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkObservation } from "@/lib/domain/diagnosis/check-observation";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import type { Edition, Limit, Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { COMPLAINT, evidenceOf, type Ranked } from "@/lib/domain/diagnosis/ranking";
import { marginToLimit, ratioOf, withGrossErrors } from "@/lib/domain/diagnosis/reading-against-limit";
import { pocket } from "./pocket-edition";

const told = (finding: string, answer: string, observer: Observer = "technician"): Observation => ({ finding, observer, answer });
const measured = (finding: string, value: number, observer: Observer = "technician"): Observation => ({ finding, observer, measured: value });

function rank(observations: readonly Observation[], edition: Edition = edition1): Ranked {
  const ranking = rankCauses(observations, edition);
  if (ranking.outcome === "contradiction") throw new Error("edition 1 explains everything somehow");
  return ranking;
}
const probabilityOf = (ranking: Ranked, code: string) => ranking.causes.find((cause) => cause.code === code)?.probability ?? Number.NaN;
const leaderOf = (ranking: Ranked) => ranking.causes[0]?.code;
const logit = (p: number) => Math.log(p / (1 - p));

const turbineOnly = [told("F01", "present"), told("F02", "absent")];
const compressorOnly = [told("F01", "absent"), told("F02", "present")];
const drainIsSound = [told("F12", "absent"), measured("F13", 19), told("F16", "absent"), told("F17", "absent")];
const crankcaseIsSound = [measured("F29", 0.05), measured("F30", 50)];
const restIsSound = [measured("F20", 4), measured("F21", 2), told("F22", "absent"), measured("F38", 3.5), told("F39", "absent"), told("F50", "absent")];

/** Any observation that edition 1 takes. */
const anyObservation: fc.Arbitrary<Observation> = fc.constantFrom(...edition1.findings.filter(({ observers }) => observers.length > 0)).chain((definition) =>
  fc.constantFrom(...definition.observers).chain((observer) =>
    definition.kind === "measurement"
      ? fc.double({ ...definition.plausible, noNaN: true }).map((value) => measured(definition.code, value, observer))
      : fc.constantFrom(...definition.options).map(({ value }) => told(definition.code, value, observer)),
  ),
);
const oneOfEach = (most: number) => fc.uniqueArray(anyObservation, { selector: ({ finding }) => finding, maxLength: most });

describe("invariants of a ranking", () => {
  it("weights of evidence add up to the posterior log-odds of every cause", () => {
    fc.assert(
      fc.property(oneOfEach(10), (observations) => {
        for (const { probability, base, weights } of rank(observations).causes) {
          const total = weights.reduce((sum, weight) => sum + weight, logit(base));
          expect(Math.abs(1 / (1 + Math.exp(-total)) - probability)).toBeLessThan(1e-12);
          // Where the probability is near 1 its own log-odds have lost digits; compare what can be compared.
          if (probability < 0.999) expect(Math.abs(total - logit(probability))).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 60, seed: 1 },
    );
  });

  it("the order in which findings came does not matter", () => {
    fc.assert(
      fc.property(oneOfEach(8), (observations) => {
        expect(rank([...observations].reverse())).toEqual(rank(observations));
      }),
      { numRuns: 40, seed: 2 },
    );
  });

  it("probabilities are probabilities, and joint answers are bounded by the marginals", () => {
    fc.assert(
      fc.property(oneOfEach(10), (observations) => {
        const ranking = rank(observations);
        for (const { probability } of ranking.causes) expect(probability >= 0 && probability <= 1).toBe(true);
        const units = ranking.causes.filter(({ attribution }) => attribution === "unit").map(({ probability }) => probability);
        expect(ranking.unitDefective).toBeGreaterThanOrEqual(Math.max(...units) - 1e-12);
        expect(ranking.unitDefective).toBeLessThanOrEqual(units.reduce((sum, p) => sum + p, 0) + 1e-12);
        expect(ranking.nothingWrong + ranking.notExplained + ranking.unitDefective).toBeLessThanOrEqual(1 + 1e-9);
        expect(JSON.parse(JSON.stringify(ranking))).toEqual(ranking);
      }),
      { numRuns: 40, seed: 3 },
    );
  });

  it("a finding without links changes nothing but the log evidence", () => {
    const mute = edition1.findings.map((one) => (one.kind === "sign" && one.code === "F25" ? { ...one, links: [] } : one));
    const edition = { ...edition1, findings: mute };
    const with25 = rank([...turbineOnly, told("F25", "present")], edition);
    for (const { code, probability } of rank(turbineOnly, edition).causes) expect(probabilityOf(with25, code)).toBeCloseTo(probability, 12);
  });

  it("knows unknown from absent: leaving out a finding is not the same as having looked", () => {
    expect(probabilityOf(rank(turbineOnly), "C01")).toBeGreaterThan(1.5 * probabilityOf(rank([...turbineOnly, told("F12", "absent")]), "C01"));
  });
});

describe("which observation counts", () => {
  it("bench before technician before customer, whoever came last", () => {
    const technician = rank([...turbineOnly, told("F12", "absent", "technician")]);
    const both = rank([...turbineOnly, told("F12", "absent", "technician"), told("F12", "present", "customer")]);
    expect(both).toEqual(technician);
  });

  it("the later one of the same observer", () => {
    const corrected = rank([...turbineOnly, told("F12", "present"), told("F12", "absent")]);
    expect(corrected).toEqual(rank([...turbineOnly, told("F12", "absent")]));
  });

  it("of one physical fact only the strongest, and a measurement in place of the answers it is made of", () => {
    const both = rank([...turbineOnly, told("F15", "present"), measured("F13", 19)]);
    const alone = rank([...turbineOnly, measured("F13", 19)]);
    expect(both.setAside).toEqual([{ finding: "F15", answer: "present", observer: "technician" }]);
    for (const { code, probability } of alone.causes) expect(probabilityOf(both, code)).toBe(probability);
    for (const cause of both.causes) expect(evidenceOf(both, cause).find(({ finding }) => finding === "F15")?.weight).toBe(0);
  });

  it("a customer's answer moves less than a technician's", () => {
    const by = (observer: Observer) => probabilityOf(rank([...turbineOnly, told("F12", "present", observer)]), "C01");
    expect(by("customer")).toBeLessThan(by("technician"));
    expect(by("customer")).toBeGreaterThan(probabilityOf(rank(turbineOnly), "C01"));
  });

  it("refuses input as a value and throws on what should have been refused", () => {
    expect(checkObservation(told("F99", "present"), edition1)).toEqual({ ok: false, reason: "unknown-finding" });
    expect(checkObservation(told("F13", "present"), edition1)).toEqual({ ok: false, reason: "needs-a-number" });
    expect(checkObservation(measured("F13", 900), edition1)).toEqual({ ok: false, reason: "impossible-number" });
    expect(checkObservation(measured("F13", -12), edition1)).toEqual({ ok: false, reason: "impossible-number" });
    expect(checkObservation(measured("F13", 127), edition1)).toEqual({ ok: true });
    expect(checkObservation(measured("F13", Number.NaN), edition1)).toEqual({ ok: false, reason: "needs-a-number" });
    expect(checkObservation(measured("F12", 3), edition1)).toEqual({ ok: false, reason: "needs-an-answer" });
    expect(checkObservation(told("F24", "sideways"), edition1)).toEqual({ ok: false, reason: "unknown-answer" });
    expect(checkObservation(told("F45", "present", "customer"), edition1)).toEqual({ ok: false, reason: "not-for-this-observer" });
    expect(checkObservation(told("F12", "absent", "customer"), edition1)).toEqual({ ok: true });
    expect(() => rankCauses([told("F99", "present")], edition1)).toThrow(RangeError);
  });
});

describe("computed by hand", () => {
  it("the complaint is 'wet somewhere' over the sites nobody looked at", () => {
    // Links 1 - 0.5 * 0.6 = 0.7 and 0.2, background 0.1; on with neither 0.1, C01 0.73, C15 0.28, both 1 - 0.9 * 0.3 * 0.8 = 0.784.
    const z = 0.72 * 0.1 + 0.08 * 0.73 + 0.18 * 0.28 + 0.02 * 0.784;
    const ranking = rank([], pocket);
    expect(ranking.logEvidence).toBeCloseTo(Math.log(z), 12);
    expect(probabilityOf(ranking, "C01")).toBeCloseTo((0.08 * 0.73 + 0.02 * 0.784) / z, 12);
    expect(ranking.notExplained).toBeCloseTo((0.72 * 0.1) / z, 12);
    expect(ranking.unitDefective).toBeCloseTo((0.18 * 0.28 + 0.02 * 0.784) / z, 12);
    expect(ranking.steps.map(({ finding }) => finding)).toEqual([COMPLAINT]);
  });

  it("a site looked at and dry leaves the complaint to the other one", () => {
    // F01 dry: 0.9, 0.45, 0.72, 0.36; F02 wet: 0, 0.4, 0, 0.4.
    const z = 0.08 * 0.45 * 0.4 + 0.02 * 0.36 * 0.4;
    const ranking = rank([told("F01", "absent")], pocket);
    expect(ranking.logEvidence).toBeCloseTo(Math.log(z), 12);
    expect(probabilityOf(ranking, "C01")).toBe(1);
    expect(probabilityOf(ranking, "C15")).toBeCloseTo((0.02 * 0.36 * 0.4) / z, 12);
  });

  it("a wet site says by itself that something leaks", () => {
    const z = 0.72 * 0.1 + 0.08 * 0.55 + 0.18 * 0.28 + 0.02 * (1 - 0.9 * 0.5 * 0.8);
    expect(rank([told("F01", "present")], pocket).logEvidence).toBeCloseTo(Math.log(z), 12);
  });

  it("nothing is wrong only where a normal cause explains the wet site, not the background", () => {
    const normal: Edition = { ...pocket, causes: pocket.causes.map((cause) => (cause.code === "C15" ? { ...cause, attribution: "normal" } : cause)) };
    const ranking = rank([told("F01", "present")], normal);
    const z = 0.72 * 0.1 + 0.08 * 0.55 + 0.18 * 0.28 + 0.02 * 0.64;
    expect(ranking.nothingWrong).toBeCloseTo((0.18 * 0.2) / z, 12);
    expect(ranking.notExplained).toBeCloseTo((0.72 * 0.1) / z, 12);
    expect(ranking.attributions.normal).toBeCloseTo((0.18 * 0.28 + 0.02 * 0.64) / z, 12);
  });

  it("with every site dry the complaint adds nothing", () => {
    const z = 0.72 * 0.9 + 0.08 * 0.45 * 0.6 + 0.18 * 0.72 + 0.02 * 0.36 * 0.6;
    expect(rank([told("F01", "absent"), told("F02", "absent")], pocket).logEvidence).toBeCloseTo(Math.log(z), 12);
  });

  it("evidence that cannot happen is a contradiction, not a number", () => {
    const tight = pocket.findings.map((one) => (one.code === "F02" ? { ...one, links: [] } : one));
    expect(rankCauses([told("F02", "present")], { ...pocket, findings: tight })).toEqual({ outcome: "contradiction", edition: 7, context: NO_CONTEXT, stopEngine: null });
  });

  it("a reading weighs by the chance of lying beyond its limit", () => {
    const limit: Limit = { value: 10, side: "below-is-bad", spread: 2, provenance: { kind: "judgement" } };
    const beyond = (measured: number, of: Limit = limit) => marginToLimit(measured, 1e-9, of).fallingShort;
    expect(ratioOf(beyond(10))).toBeCloseTo(1, 8);
    expect(withGrossErrors(beyond(8))).toBeCloseTo(0.01 + 0.98 * 0.841344746, 8);
    expect(withGrossErrors(beyond(8, { ...limit, side: "above-is-bad" }))).toBeCloseTo(0.01 + 0.98 * 0.158655254, 8);
    expect(ratioOf(beyond(0))).toBeCloseTo(99, 1);
    expect(ratioOf(beyond(60))).toBeCloseTo(1 / 99, 6);
    // A reading good to 1.5 against a limit good to 2 is one good to 2.5.
    expect(marginToLimit(7.5, 1.5, limit).fallingShort).toBeCloseTo(0.841344746, 8);

    // F01 wet and a bore of 0 mm: weight 99 * on + off, on 0.2 without C01 and 0.6 with it.
    const [without, withIt] = [99 * 0.2 + 0.8, 99 * 0.6 + 0.4];
    const z = without * (0.72 * 0.1 + 0.18 * 0.28) + withIt * (0.08 * 0.55 + 0.02 * 0.64);
    const ranking = rank([told("F01", "present"), measured("F13", 0)], { ...pocket, findings: pocket.findings.map((one) => ("plausible" in one ? { ...one, plausible: { min: -5, max: 60 } } : one)) });
    expect(probabilityOf(ranking, "C01")).toBeCloseTo((withIt * (0.08 * 0.55 + 0.02 * 0.64)) / z, 4);
  });

  it("a reading on its limit says nothing", () => {
    const at = rank([...turbineOnly, measured("F35", 5)]);
    for (const { code, probability } of rank(turbineOnly).causes) expect(probabilityOf(at, code)).toBeCloseTo(probability, 8);
  });
});

describe("the order of the trade", () => {
  const shareOf = (ranking: Ranked, codes: string[]) => codes.reduce((sum, code) => sum + probabilityOf(ranking, code), 0);
  const drain = ["C01", "C02", "C03", "C04"];
  const crankcase = ["C06", "C07", "C08"];
  const rest = edition1.causes.map(({ code }) => code).filter((code) => !drain.includes(code) && !crankcase.includes(code));

  it("oil in the turbine soon after a fit points to the drain first, then to the crankcase", () => {
    for (const observer of ["customer", "technician"] as const) {
      const ranking = rank([told("F01", "present", observer), told("F02", "absent", observer), told("F07", "first-start", observer)]);
      expect(leaderOf(ranking)).toBe("C01");
      expect(shareOf(ranking, drain)).toBeGreaterThan(shareOf(ranking, crankcase));
      for (const code of rest) expect(shareOf(ranking, crankcase)).toBeGreaterThan(probabilityOf(ranking, code));
    }
  });

  it("with the drain sound it is the crankcase", () => {
    const ranking = rank([...turbineOnly, ...drainIsSound]);
    expect(crankcase).toContain(leaderOf(ranking));
    expect(shareOf(ranking, crankcase)).toBeGreaterThan(2 * shareOf(ranking, drain));
  });

  it("oil at the compressor with the vent led into the intake is normal", () => {
    const ranking = rank([...compressorOnly, told("F24", "intake")]);
    expect(leaderOf(ranking)).toBe("C18");
    expect(ranking.nothingWrong).toBeGreaterThan(0.5);
  });

  it.each(["open-air", "catch-can"])("with the vent elsewhere (%s) it is the intake filter first", (vent) => {
    const ranking = rank([...compressorOnly, told("F24", vent)]);
    expect(leaderOf(ranking)).toBe("C11");
    expect(probabilityOf(ranking, "C18")).toBeLessThan(0.001);
  });

  it("the low-pressure unit of a compound pair is normal, any other is not", () => {
    const lowPressure = rank([...compressorOnly, told("F37", "low-pressure"), told("F04", "absent")]);
    expect(leaderOf(lowPressure)).toBe("C19");
    expect(lowPressure.nothingWrong).toBeGreaterThan(0.6);
    expect(probabilityOf(rank([...compressorOnly, told("F37", "single")]), "C19")).toBeLessThan(0.001);
  });

  it("suspects the unit only when drain and crankcase are ruled out, and shaft play or a ring off its groove confirms it", () => {
    const open = rank(turbineOnly);
    const ruledOut = rank([...turbineOnly, ...drainIsSound, ...crankcaseIsSound, ...restIsSound]);
    const play = rank([...turbineOnly, ...drainIsSound, ...crankcaseIsSound, ...restIsSound, measured("F41", 0.3)]);
    const ring = rank([...turbineOnly, ...drainIsSound, ...crankcaseIsSound, ...restIsSound, told("F45", "present", "bench")]);
    expect(open.unitDefective).toBeLessThan(0.07);
    expect(ruledOut.unitDefective).toBeGreaterThan(3 * open.unitDefective);
    expect(ruledOut.unitDefective).toBeLessThan(0.5);
    expect(leaderOf(play)).toBe("C16");
    expect(play.unitDefective).toBeGreaterThan(0.5);
    expect(leaderOf(ring)).toBe("C15");
    expect(ring.unitDefective).toBeGreaterThan(0.8);
  });

  it("explains away: a level drain speaks against a bad ring without any figure that says so", () => {
    expect(probabilityOf(rank([...turbineOnly, told("F12", "present")]), "C15")).toBeLessThan(0.7 * probabilityOf(rank(turbineOnly), "C15"));
    expect(probabilityOf(rank([...turbineOnly, told("F12", "absent")]), "C15")).toBeGreaterThan(1.1 * probabilityOf(rank(turbineOnly), "C15"));
  });

  it("a fault explained away falls back to how often a fitted unit has it", () => {
    const ranking = rank([...turbineOnly, told("F12", "present"), told("F17", "absent")]);
    expect(probabilityOf(ranking, "C02")).toBeLessThan(0.01);
  });
});

describe("the engine must stand still", () => {
  const reasonOf = (...observations: Observation[]) => rank(observations).stopEngine;

  it("with oil in the intake, until it is known to be a film", () => {
    expect(reasonOf(told("F02", "present", "customer"))).toEqual({ reason: "oil-in-intake-can-run-away", finding: "F02" });
    expect(reasonOf(told("F02", "present", "customer"), told("F04", "present", "customer"))?.reason).toBe("oil-in-intake-can-run-away");
    expect(reasonOf(told("F02", "present", "customer"), told("F04", "absent", "customer"))).toBeNull();
    expect(reasonOf(told("F02", "present", "technician"), told("F02", "absent", "customer"))?.finding).toBe("F02");
  });

  it("with much oil on hot parts, and with a wheel that has touched", () => {
    expect(reasonOf(told("F01", "present"))).toBeNull();
    expect(reasonOf(told("F01", "present"), told("F04", "present"))).toEqual({ reason: "oil-on-hot-parts", finding: "F01" });
    expect(reasonOf(told("F40", "present"))).toEqual({ reason: "wheel-contact", finding: "F40" });
  });
});
