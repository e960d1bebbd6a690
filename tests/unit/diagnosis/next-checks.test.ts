import { describe, expect, it } from "vitest";
import { firstAdvice } from "@/lib/domain/diagnosis/advice";
import { accountForStaff } from "@/lib/domain/diagnosis/account";
import { cautionInWords, stopEngineInWords } from "@/lib/domain/diagnosis/cautions";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import { CAUTION_CODES, type Observer, STOP_REASONS } from "@/lib/domain/diagnosis/knowledge";
import { nextChecks } from "@/lib/domain/diagnosis/next-checks";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { decide, USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { sayIn } from "@/lib/messages/words";
import { pocket } from "./pocket-edition";

const told = (finding: string, answer: string, observer: Observer = "customer"): Observation => ({ finding, observer, answer });
const turbineOnly = [told("F01", "present"), told("F02", "absent")];
const compressorOnly = [told("F01", "absent"), told("F02", "present")];
const checksFor = (observations: Observation[], observer: Observer) =>
  nextChecks(observations, edition1, { observer, stakes: USUAL_STAKES });
const definitionOf = (code: string) => edition1.findings.find((one) => one.code === code);

describe("next checks", () => {
  it("are only those that this observer may make and nobody has made", () => {
    for (const observer of ["customer", "technician", "bench"] as const) {
      const checks = checksFor(turbineOnly, observer);
      expect(checks.length).toBeGreaterThan(3);
      for (const { finding } of checks) {
        expect(definitionOf(finding)?.observers).toContain(observer);
        expect(["F01", "F02"]).not.toContain(finding);
      }
    }
  });

  it("expect no answer that leaves everything dry: somebody has complained", () => {
    const sites = edition1.findings.filter(({ kind }) => kind === "site").map(({ code }) => code);
    expect(sites.length).toBeGreaterThan(2);
    for (const open of sites) {
      const othersDry = sites.filter((code) => code !== open).map((code) => told(code, "absent"));
      expect(checksFor(othersDry, "customer").map(({ finding }) => finding)).not.toContain(open);
      expect(checksFor(othersDry.slice(1), "technician").find(({ finding }) => finding === open)?.outcomes.map(({ answer }) => answer)).toEqual(["present", "absent"]);
    }
  });

  it("never have a negative value, and gain no more than perfect knowledge would", () => {
    const ranking = rankCauses(turbineOnly, edition1);
    if (ranking.outcome === "contradiction") throw new Error("ranked");
    const p = ranking.unitDefective;
    // With perfect knowledge nothing is decided wrongly, so that the whole cost of deciding now would be saved.
    const advice = Math.max(...ranking.causes.filter(({ attribution }) => attribution !== "unit").map(({ probability }) => probability));
    const perfect = decide({ unitDefective: p, leader: { cause: "C01", probability: advice } }, USUAL_STAKES).cost;
    for (const { gain, information } of checksFor(turbineOnly, "bench")) {
      expect(gain).toBeGreaterThanOrEqual(0);
      expect(gain).toBeLessThanOrEqual(perfect + 1e-9);
      expect(information).toBeGreaterThanOrEqual(0);
    }
  });

  it("gain what is computed by hand", () => {
    // F01 wet: none 0.072, C01 0.044, C15 0.0504, both 0.0128. F02 wet needs C01 and shows in 0.4 of those.
    const total = 0.072 + 0.044 + 0.0504 + 0.0128;
    const wet = { weight: 0.4 * (0.044 + 0.0128), unit: 0.4 * 0.0128 };
    const dry = { weight: total - wet.weight, unit: 0.0504 + 0.6 * 0.0128 };
    const stakes = { ...USUAL_STAKES, needlessReturn: 30, missedDefect: 70, wrongAdvice: 0 };
    // Now and when dry it pays to treat the unit as defective, when wet it does not.
    const now = ((0.072 + 0.044) / total) * 30;
    const after = (wet.unit * 70 + (dry.weight - dry.unit) * 30) / total;
    const [check] = nextChecks([told("F01", "present")], pocket, { observer: "technician", stakes }).filter(({ finding }) => finding === "F02");
    expect(now - after).toBeGreaterThan(0.9);
    expect(check?.gain).toBeCloseTo(now - after, 12);
  });

  it("prefer at the bench what shows the unit's own fault", () => {
    const best = [...checksFor(turbineOnly, "bench")].sort((a, b) => b.gain - a.gain)[0];
    expect(["F45", "F48"]).toContain(best?.finding);
  });

  it("ask about the drain when oil is on the turbine side, and where the vent leads when it is on the compressor side", () => {
    const looks = (observations: Observation[]) =>
      checksFor(observations, "technician").map(({ finding }) => finding).filter((code) => (definitionOf(code)?.minutes ?? 0) >= 5);
    expect(looks(turbineOnly)[0]).toBe("F12");
    expect(looks(compressorOnly)[0]).toBe("F24");
  });

  it("leave out a fact that is already measured, and offer to measure one that was only looked at", () => {
    const bore: Observation = { finding: "F13", observer: "technician", measured: 19 };
    const codes = (observations: Observation[]) => checksFor(observations, "technician").map(({ finding }) => finding);
    expect(codes([...turbineOnly, bore])).not.toContain("F15");
    expect(codes([...turbineOnly, told("F15", "present")])).toContain("F13");
    // A good fall does not show that no stretch of it sags.
    expect(codes([...turbineOnly, { finding: "F14", observer: "technician", measured: 200 }])).toContain("F12");
  });

  it("put a free check before a paid one of the same worth", () => {
    const free = definitionOf("F17");
    if (!free) throw new Error("edition 1 has it");
    const twin = { ...free, code: "F98", cost: "none" as const };
    const edition = { ...edition1, findings: [...edition1.findings, twin] };
    const codes = nextChecks(turbineOnly, edition, { observer: "technician", stakes: USUAL_STAKES }).map(({ finding }) => finding);
    expect(codes.indexOf("F98")).toBeLessThan(codes.indexOf("F17"));
  });
});

describe("while the engine must stand still", () => {
  const runaway: Observation[] = [told("F01", "absent"), told("F02", "present"), told("F04", "present")];
  const running = new Set(edition1.findings.filter(({ runsEngine }) => runsEngine).map(({ code }) => code));

  it("no check that runs it is asked of anybody", () => {
    for (const observer of ["customer", "technician", "bench"] as const) {
      const asked = nextChecks(runaway, edition1, { observer, stakes: USUAL_STAKES });
      expect(asked.filter(({ finding }) => running.has(finding))).toEqual([]);
    }
  });

  it("and they come back where nothing forbids it", () => {
    const asked = nextChecks(turbineOnly, edition1, { observer: "technician", stakes: USUAL_STAKES });
    expect(asked.some(({ finding }) => running.has(finding))).toBe(true);
  });
});

describe("first advice", () => {
  it("names free checks without a running engine, each with how and its cautions", () => {
    for (const observations of [[], turbineOnly, compressorOnly]) {
      const { checks } = firstAdvice(rankCauses(observations, edition1), observations, edition1, { observer: "customer", stakes: USUAL_STAKES }, sayIn("en"));
      expect(checks.length).toBeGreaterThan(2);
      for (const { finding, how, cautions } of checks) {
        expect(definitionOf(finding)?.cost).toBe("none");
        expect(how.length).toBeGreaterThan(10);
        expect(definitionOf(finding)?.runsEngine).toBeUndefined();
        expect(cautions).not.toContain("S6");
      }
    }
  });

  it("says to a customer what is likely, and owns up where it is too early", () => {
    const account = (observations: Observation[]) => firstAdvice(rankCauses(observations, edition1), observations, edition1, { observer: "customer", stakes: USUAL_STAKES }, sayIn("en")).account;
    expect(account(turbineOnly).headline).toBe("Too early to say. First guess: Oil drain");
    expect(account([...turbineOnly, told("F12", "present", "technician")]).headline).toBe("Most likely the oil drain runs level, uphill or with a sag");
    expect(account([...compressorOnly, told("F24", "intake"), told("F04", "absent")]).headline).toMatch(/^Most likely nothing is wrong: /);
    expect(account([...turbineOnly, told("F45", "present", "bench")]).headline).toBe("The unit itself may be at fault: a seal ring inside the unit is out of place or broken");
  });

  it("says to staff how sure it is, of the cause and of the unit", () => {
    const { headline, sentence } = accountForStaff(rankCauses([...turbineOnly, told("F12", "present", "technician")], edition1), edition1);
    expect(headline).toMatch(/^Drain runs level, rises or sags: \d+ %; unit defective: \d+ %$/);
    expect(sentence).toMatch(/^Next: .+; nothing wrong .+ %; not explained .+ %\.$/);
  });

  it("says so when the findings do not fit together", () => {
    expect(accountForStaff({ outcome: "contradiction", edition: 1, context: NO_CONTEXT, stopEngine: null }, edition1).headline).toBe("What was found does not fit together");
  });
});

describe("cautions", () => {
  it("have words for every code and every reason to stop", () => {
    for (const code of CAUTION_CODES) expect(cautionInWords(code, sayIn("en")).sentence.length).toBeGreaterThan(30);
    for (const reason of STOP_REASONS) expect(stopEngineInWords(reason, sayIn("en")).title).toMatch(/^Do not run the engine/);
  });

  it("never advise leading a vent to the open air", () => {
    const advice = [...edition1.causes.map((cause) => cause.advice), ...edition1.findings.map(({ how }) => how)].join(" ");
    expect(advice).not.toMatch(/open air|atmosphere/i);
  });
});
