import { describe, expect, it } from "vitest";
import type { ClaimContext } from "@/lib/domain/diagnosis/experience";
import type { Edition, ExperienceRow } from "@/lib/domain/diagnosis/knowledge";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { nextChecks } from "@/lib/domain/diagnosis/next-checks";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { EXPERIENCE, evidenceOf, type Ranked, type Ranking } from "@/lib/domain/diagnosis/ranking";
import { USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { editionSchema } from "@/lib/inputs/edition";
import { pocket } from "./pocket-edition";

const row = (kit: string, vehicle: string | null, cause: string, ratio: number): ExperienceRow => ({
  kit,
  vehicle,
  cause,
  oddsRatio: { value: ratio, provenance: { kind: "learned", note: "verdicts of the kit", counts: { of: 40, hits: 12 } } },
});
const experienced: Edition = { ...pocket, experience: [row("short-drain", null, "C01", 2), row("short-drain", "wagon", "C01", 6), row("other", "wagon", "C15", 9)] };
const wetTurbine: Observation[] = [{ finding: "F01", observer: "technician", answer: "present" }];

function rank(observations: readonly Observation[], edition: Edition, context?: ClaimContext): Ranked {
  const ranking = rankCauses(observations, edition, context);
  if (ranking.outcome === "contradiction") throw new Error("explained somehow");
  return ranking;
}
const probabilityOf = (ranking: Ranking, code: string) => (ranking.outcome === "ranked" ? ranking.causes.find((cause) => cause.code === code)?.probability : undefined);
const shifted = (base: number, ratio: number) => (base * ratio) / (1 - base + base * ratio);

describe("experience with a kit", () => {
  it("shifts the odds of a cause: kit on vehicle before kit alone, and no other kit", () => {
    const given = (context: ClaimContext, ratio: number) => {
      const causes = pocket.causes.map((cause) => (cause.code === "C01" ? { ...cause, base: { ...cause.base, value: shifted(0.1, ratio) } } : cause));
      const expected = rank(wetTurbine, { ...pocket, causes });
      const got = rank(wetTurbine, experienced, context);
      for (const { code, probability } of expected.causes) expect(probabilityOf(got, code)).toBeCloseTo(probability, 12);
    };
    given({ kit: "short-drain", vehicle: "wagon" }, 6);
    given({ kit: "short-drain", vehicle: "van" }, 2);
    given({ kit: "short-drain", vehicle: null }, 2);
    given({ kit: "unheard-of", vehicle: "wagon" }, 1);
    given({ kit: null, vehicle: null }, 1);
  });

  it("is one step of the evidence, worth the logarithm of its ratio, and none where nothing is known", () => {
    const stepOf = (context: ClaimContext) => {
      const ranking = rank(wetTurbine, experienced, context);
      return ranking.causes.filter(({ code }) => code === "C01").flatMap((cause) => evidenceOf(ranking, cause).filter(({ finding }) => finding === EXPERIENCE));
    };
    expect(stepOf({ kit: "short-drain", vehicle: "wagon" }).map(({ weight }) => weight)).toEqual([expect.closeTo(Math.log(6), 12)]);
    expect(stepOf({ kit: "other", vehicle: null })).toEqual([]);
  });

  it("is kept with the ranking, which its edition then gives again", () => {
    const kept = JSON.parse(JSON.stringify(rankCauses(wetTurbine, experienced, { kit: "short-drain", vehicle: "wagon" }))) as Ranking;
    expect(rankCauses(wetTurbine, experienced, kept.context)).toEqual(kept);
    expect(rankCauses(wetTurbine, experienced)).not.toEqual(kept);
  });

  it("moves what a check is worth", () => {
    const gainOf = (context: ClaimContext) =>
      nextChecks(wetTurbine, experienced, { observer: "technician", stakes: USUAL_STAKES, context }).find(({ finding }) => finding === "F02")?.information;
    expect(gainOf({ kit: "short-drain", vehicle: "wagon" })).not.toBe(gainOf({ kit: null, vehicle: null }));
  });

  it("is refused for a cause that is not there, a row twice, or a ratio of nothing; an edition without has none", () => {
    const problems = (experience: ExperienceRow[]) => {
      const read = editionSchema.safeParse({ ...edition1, experience });
      return read.success ? [] : read.error.issues.map(({ path }) => path.join("."));
    };
    expect(problems([row("kit", null, "C01", 2), row("kit", "van", "C01", 2)])).toEqual([]);
    expect(problems([row("kit", null, "C99", 2)])).toEqual(["experience.0.cause"]);
    expect(problems([row("kit", null, "C01", 2), row("kit", null, "C01", 3)])).toEqual(["experience.1"]);
    expect(problems([row("kit", null, "C01", 0)])).toEqual(["experience.0.oddsRatio.value"]);
    const { experience: _, ...silent } = edition1;
    expect(editionSchema.parse(silent).experience).toEqual([]);
  });
});
