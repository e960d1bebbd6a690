import type { Edition, Figure, FindingDefinition } from "../diagnosis/knowledge";

/** A figure that an edition moves. */
export interface MovedFigure {
  /** "Drain runs level: how often a fitted unit has it" */
  name: string;
  before: number;
  after: number;
  /** How many times the odds of before. */
  factor: number;
  /** What was counted. */
  why: string;
}

const oddsOf = (chance: number) => chance / (1 - chance);

/**
 * Learned figures by how far they move, the farthest first: in odds, so that 0.5 to 0.6 is as far as 0.1 to 0.143.
 */
export function movedFigures(before: Edition, after: Edition): MovedFigure[] {
  const moved: MovedFigure[] = [];
  const compare = (name: string, was: Figure | undefined, is: Figure | undefined, toOdds: (value: number) => number = oddsOf) => {
    if (!was || !is || is.provenance.kind !== "learned" || was.value === is.value) return;
    moved.push({ name, before: was.value, after: is.value, factor: toOdds(is.value) / toOdds(was.value), why: is.provenance.note });
  };
  for (const cause of after.causes) compare(`${cause.name}: how often a fitted unit has it`, before.causes.find(({ code }) => code === cause.code)?.base, cause.base);
  const nameOf = (code: string) => after.causes.find((cause) => cause.code === code)?.name ?? code;
  for (const finding of after.findings) {
    const was: FindingDefinition | undefined = before.findings.find(({ code }) => code === finding.code);
    if (finding.kind === "circumstance" || !was || was.kind === "circumstance") continue;
    for (const observer of finding.observers) {
      compare(`${finding.name}, ${observer}: how often seen with none of its causes`, was.background[observer], finding.background[observer]);
      for (const { cause, strength } of finding.links)
        compare(`${finding.name}, ${observer}: how often seen with "${nameOf(cause)}"`, was.links.find((link) => link.cause === cause)?.strength[observer], strength[observer]);
    }
  }
  return moved.sort((a, b) => Math.abs(Math.log(b.factor)) - Math.abs(Math.log(a.factor)));
}
