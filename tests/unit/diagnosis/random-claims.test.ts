import { describe, expect, it } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { ClaimContext } from "@/lib/domain/diagnosis/experience";
import type { Cause, Edition, FindingDefinition, Observer } from "@/lib/domain/diagnosis/knowledge";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { standingObservations } from "@/lib/domain/diagnosis/standing-observations";
import { drawn } from "./drawn-claims";
import { sumOverCauses } from "./oracle";
import { seeded } from "./seeded";

const CONTEXT: ClaimContext = { kit: "kit", vehicle: null };

/** Edition 1 cut down to some of its causes, made commoner, with experience of one kit. */
function cutDown(seed: number): Edition {
  const random = seeded(seed);
  const provenance = { kind: "judgement" } as const;
  const left = [...edition1.causes];
  const causes = Array.from({ length: 8 }, () => left.splice(Math.floor(random() * left.length), 1)).flat();
  return {
    ...edition1,
    causes: causes.map((cause) => ({ ...cause, base: { value: 0.02 + 0.2 * random(), provenance } })),
    experience: causes.slice(0, 1).map(({ code }) => ({ kit: "kit", vehicle: null, cause: code, oddsRatio: { value: 2.5, provenance } })),
    translations: {},
  };
}

/** Chance that a finding is on with these causes there, straight from the edition. */
function chanceOn(definition: FindingDefinition, observer: Observer, there: ReadonlySet<string>, withBackground: boolean): number {
  if (definition.kind === "circumstance") throw new Error("a circumstance is no sign");
  const off = definition.links.reduce((product, { cause, strength }) => (there.has(cause) ? product * (1 - strength[observer].value) : product), 1);
  return 1 - (withBackground ? 1 - definition.background[observer].value : 1) * off;
}

/** The definition of a claim's answer, summed over every set of causes: odds times ratios, signs, and that somebody complained. */
function bySumming(seed: number, edition: Edition, isAllowed: (cause: Cause) => boolean, backgroundOfSites: boolean) {
  const { counted } = standingObservations(drawn(seed, 4 + (seed % 14)), edition);
  const odds = edition.causes.map(({ code, base }) => {
    let value = base.value / (1 - base.value);
    for (const { cause, oddsRatio } of edition.experience) if (cause === code) value *= oddsRatio.value;
    for (const one of counted) {
      if (one.kind !== "circumstance") continue;
      for (const { cause, option, oddsRatio } of one.definition.shifts) if (cause === code && option === one.shown) value *= oddsRatio.value;
      for (const { cause, onlyUnder } of one.definition.gates) if (cause === code && !onlyUnder.includes(one.shown)) value = 0;
    }
    return value;
  });
  const priors = odds.map((value) => Math.min(1 - 1e-6, Math.max(1e-6, value / (1 + value))));
  const sites = edition.findings.filter(({ kind }) => kind === "site");
  const isWet = counted.some((one) => one.definition.kind === "site" && one.shown === "present");
  const notLookedAt = sites.filter(({ code }) => !counted.some(({ definition }) => definition.code === code));

  return sumOverCauses(edition.causes.length, (isThere) => {
    const there = new Set(edition.causes.flatMap(({ code }, place) => (isThere[place] ? [code] : [])));
    if (edition.causes.some((cause) => there.has(cause.code) && !isAllowed(cause))) return 0;
    let weight = priors.reduce((product, prior, cause) => product * (isThere[cause] ? prior : 1 - prior), 1);
    for (const one of counted) {
      if (one.kind === "circumstance") continue;
      const on = chanceOn(one.definition, one.observer, there, one.definition.kind !== "site" || backgroundOfSites);
      weight *= one.weightOn * on + one.weightOff * (1 - on);
    }
    const isComplaintOpen = !isWet && notLookedAt.length > 0;
    const allDry = notLookedAt.reduce((product, site) => product * (1 - chanceOn(site, "customer", there, backgroundOfSites)), 1);
    return isComplaintOpen ? weight * (1 - allDry) : weight;
  });
}

describe("a ranking agrees with its definition, summed over every set of causes", () => {
  it("on 120 claims of cut-down editions: circumstances, experience, sites and the complaint, every joint answer", () => {
    const sites = new Set(edition1.findings.filter(({ kind }) => kind === "site").map(({ code }) => code));
    let withComplaintOpen = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const edition = cutDown(seed);
      const observations = drawn(seed, 4 + (seed % 14));
      const ranking = rankCauses(observations, edition, CONTEXT);
      const all = bySumming(seed, edition, () => true, true);
      if (ranking.outcome === "contradiction") throw new Error("everything has a background");
      const near = (got: number, expected: number) => expect(Math.abs(got - expected), `claim ${seed}`).toBeLessThan(1e-12);
      near(ranking.logEvidence, Math.log(all.total));
      for (const [place, { code }] of edition.causes.entries()) near(ranking.causes.find((cause) => cause.code === code)?.probability ?? Number.NaN, all.present[place] ?? Number.NaN);
      const none = (isAllowed: (cause: Cause) => boolean, backgroundOfSites = true) => bySumming(seed, edition, isAllowed, backgroundOfSites).total / all.total;
      near(1 - ranking.unitDefective, none(({ attribution }) => attribution !== "unit"));
      near(ranking.notExplained, none(() => false));
      near(ranking.nothingWrong, none(({ attribution }) => attribution === "normal", false));
      if (!ranking.steps.some(({ finding, answer }) => sites.has(finding) && answer === "present")) withComplaintOpen += 1;
    }
    expect(withComplaintOpen).toBeGreaterThan(30);
  });
});
