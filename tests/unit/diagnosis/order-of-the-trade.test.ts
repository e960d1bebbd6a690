import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { CauseCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import { nextChecks } from "@/lib/domain/diagnosis/next-checks";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { decide, USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";

/** Common practice, no source: the shipped edition must lead to it by its figures alone. */
const told = (finding: string, answer: string, observer: Observer = "technician"): Observation => ({ finding, observer, answer });
const measured = (finding: string, value: number, observer: Observer = "technician"): Observation => ({ finding, observer, measured: value });

function ranked(...observations: Observation[]) {
  const ranking = rankCauses(observations, edition1);
  if (ranking.outcome === "contradiction") throw new Error("the findings are possible");
  const of = (code: CauseCode) => ranking.causes.find((cause) => cause.code === code)?.probability ?? Number.NaN;
  // Of a group the sum of its members: they are told apart later.
  const group = (...codes: CauseCode[]) => codes.reduce((sum, code) => sum + of(code), 0);
  const { attributions } = ranking;
  return { leader: ranking.causes[0]?.code, of, group, drain: group("C01", "C02", "C03", "C04"), crankcase: group("C06", "C07", "C08"), attributions, unit: ranking.unitDefective, nothingWrong: ranking.nothingWrong };
}

const turbine = [told("F01", "present"), told("F02", "absent")];
const compressor = [told("F01", "absent"), told("F02", "present")];
const soon = told("F07", "first-start");
const drainSound = [told("F12", "absent"), told("F17", "absent"), measured("F13", 19), told("F16", "absent"), told("F18", "absent")];
const ventSound = [told("F24", "open-air"), told("F25", "absent"), measured("F26", 25), told("F28", "absent")];

describe("oil in the turbine soon after a fit", () => {
  test("points first to the drain, then to the crankcase, and little to the unit", () => {
    const { drain, crankcase, unit, attributions } = ranked(...turbine, soon);
    expect(drain).toBeGreaterThan(crankcase);
    expect(crankcase).toBeGreaterThan(unit);
    expect(unit).toBeLessThan(0.1);
    for (const other of ["normal", "elsewhere", "transit"] as const) expect(drain).toBeGreaterThan(attributions[other]);
  });

  test.each([
    ["level or rising", told("F12", "present"), "C01"],
    ["blocked", told("F17", "present"), "C02"],
    ["narrow", measured("F13", 8), "C03"],
  ] as const)("names a drain that is %s once it is found", (_, seen, cause) => {
    expect(ranked(...turbine, soon, seen).leader).toBe(cause);
  });

  test("points to the crankcase when the drain is sound", () => {
    const { drain, crankcase, unit } = ranked(...turbine, soon, ...drainSound);
    expect(crankcase).toBeGreaterThan(drain);
    expect(crankcase).toBeGreaterThan(unit);
  });

  test.each([
    ["an element left in a vent led to open air", [told("F24", "open-air"), told("F25", "present")], "C06"],
    ["a narrow vent hose", [told("F24", "open-air"), measured("F26", 8)], "C06"],
    ["a vent that leaks only in frost", [told("F27", "only-in-frost"), told("F28", "present")], "C07"],
    ["blow-by", [measured("F30", 180), told("F33", "high-and-used-oil")], "C08"],
  ] as const)("then names %s", (_, seen, cause) => {
    expect(ranked(...turbine, ...drainSound, ...seen).leader).toBe(cause);
  });

  test("sends the first look that takes a minute or more of work to the drain", () => {
    const looks = nextChecks([...turbine, soon], edition1, { observer: "technician", stakes: USUAL_STAKES }).filter(({ minutes }) => minutes >= 5);
    expect(edition1.findings.find(({ code }) => code === looks[0]?.finding)?.part).toBe("drain");
  });
});

describe("oil at the compressor", () => {
  test("is normal where the vent leads into the intake", () => {
    const { leader, nothingWrong, unit } = ranked(...compressor, told("F24", "intake"), told("F03", "present"), told("F04", "absent"));
    expect(leader).toBe("C18");
    expect(nothingWrong).toBeGreaterThan(0.6);
    expect(unit).toBeLessThan(0.05);
  });

  test("with the vent elsewhere points first to an intake filter, and never to that normal film", () => {
    const seen = ranked(...compressor, told("F24", "open-air"), told("F04", "present"), told("F25", "absent"));
    expect(seen.of("C18")).toBeLessThan(0.001);
    const first = ranked(...compressor, told("F24", "open-air"), told("F34", "present"));
    expect(first.leader).toBe("C11");
    expect(first.of("C11")).toBeGreaterThan(0.5);
    expect(ranked(...compressor, told("F24", "open-air")).of("C11")).toBeGreaterThan(ranked(...turbine, told("F24", "open-air")).of("C11") * 5);
    expect(ranked(...compressor, told("F24", "open-air"), told("F34", "absent"), measured("F35", 2)).of("C11")).toBeLessThan(0.03);
  });

  test("is normal in the large, low-pressure unit of a two-stage set", () => {
    const { leader, nothingWrong } = ranked(...compressor, told("F37", "low-pressure"), told("F24", "open-air"), told("F04", "absent"));
    expect(leader).toBe("C19");
    expect(nothingWrong).toBeGreaterThan(0.5);
    expect(ranked(...compressor, told("F37", "single"), told("F04", "absent")).of("C19")).toBeLessThan(0.001);
  });
});

describe("every normal condition is recognised", () => {
  test.each([
    ["C18, a film with the vent in the intake", [...compressor, told("F24", "intake", "customer"), told("F03", "present", "customer"), told("F04", "absent", "customer")], "C18"],
    ["C19, a film in the large unit of a set", [...compressor, told("F37", "low-pressure", "customer"), told("F24", "open-air", "customer"), told("F04", "absent", "customer")], "C19"],
    ["C20, priming oil that is gone after a run", [...turbine, told("F09", "under-pressure"), soon, told("F10", "absent"), told("F04", "absent")], "C20"],
    ["C20, oil of a failed unit before", [...turbine, told("F11", "failed-not-cleaned"), soon, told("F10", "absent"), told("F04", "absent")], "C20"],
  ] as const)("%s", (_, observations, cause) => {
    const { leader, nothingWrong, unit } = ranked(...observations);
    expect(leader).toBe(cause);
    expect(nothingWrong).toBeGreaterThan(0.5);
    expect(unit).toBeLessThan(0.05);
  });

  test("and taken back when the oil keeps coming in a puddle", () => {
    const before = ranked(...turbine, told("F09", "under-pressure"), soon, told("F10", "absent"), told("F04", "absent"));
    const after = ranked(...turbine, told("F09", "under-pressure"), soon, told("F10", "present"), told("F04", "present"));
    expect(after.nothingWrong).toBeLessThan(before.nothingWrong / 5);
  });
});

describe("the unit is held defective", () => {
  const treatAs = ({ unit, of }: ReturnType<typeof ranked>) => {
    const best = edition1.causes.filter(({ attribution }) => attribution !== "unit").map(({ code }) => ({ cause: code, probability: of(code) }));
    const leader = best.reduce((a, b) => (b.probability > a.probability ? b : a));
    return decide({ unitDefective: unit, leader }, USUAL_STAKES).decision.treatAs;
  };

  test("not while the free causes stand open, wherever the oil is", () => {
    for (const sites of [turbine, compressor, [told("F01", "present"), told("F02", "present")]]) {
      const seen = ranked(...sites, soon);
      expect(seen.unit).toBeLessThan(0.1);
      expect(treatAs(seen)).toBe("sound");
    }
  });

  test("more with each free cause that is ruled out", () => {
    const [ventElsewhere, ...restOfVent] = ventSound;
    if (!ventElsewhere) throw new Error("the vent leads somewhere");
    const open = [...turbine, soon, ventElsewhere];
    const ruledOut = [told("F12", "absent"), told("F17", "absent"), measured("F13", 19), ...restOfVent, measured("F29", 0.05), measured("F35", 2), told("F50", "absent")];
    let before = ranked(...open).unit;
    for (const [place] of ruledOut.entries()) {
      const { unit } = ranked(...open, ...ruledOut.slice(0, place + 1));
      expect(unit, ruledOut[place]?.finding).toBeGreaterThan(before * 0.9);
      before = unit;
    }
    expect(before).toBeGreaterThan(2 * ranked(...open).unit);
  });

  test.each([
    ["fore-and-aft play beyond every range shows the thrust bearing", [measured("F41", 0.4), told("F40", "present"), told("F46", "present", "bench"), told("F47", "absent", "bench")], "C16"],
    ["a seal ring off its groove at the bench shows the ring", [told("F45", "present", "bench")], "C15"],
    ["a crack or porosity at the bench shows the housing", [told("F49", "present", "bench"), told("F05", "present")], "C17"],
  ] as const)("when %s", (_, seen, cause) => {
    const result = ranked(...turbine, ...drainSound, ...ventSound, ...seen);
    expect(result.leader).toBe(cause);
    expect(result.unit).toBeGreaterThan(0.5);
    expect(treatAs(result)).toBe("defective");
  });

  test("no longer when the bench finds it sound", () => {
    const suspected = ranked(...turbine, ...drainSound, ...ventSound);
    const cleared = ranked(...turbine, ...drainSound, ...ventSound, told("F45", "absent", "bench"), told("F48", "absent", "bench"), measured("F41", 0.06, "bench"));
    expect(cleared.unit).toBeLessThan(suspected.unit / 5);
    expect(treatAs(cleared)).toBe("sound");
  });
});
