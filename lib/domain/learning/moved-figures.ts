import type { Edition, Figure, FindingDefinition } from "../diagnosis/knowledge";

/** A figure that an edition moves. */
export interface MovedFigure {
  /** "Drain runs level: base figure", "Oil level, seen by the customer with none of its causes there" */
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
 * Learned figures by how far they move, the farthest first: in odds, so that 0.5 to 0.6 is as far as 0.1 to 0.143. Of
 * those that go equally far, to the bound of one proposal, what was counted more often stands first.
 */
export function movedFigures(before: Edition, after: Edition): MovedFigure[] {
  const moved: (MovedFigure & { distance: number; of: number })[] = [];
  const compare = (name: string, was: Figure | undefined, is: Figure | undefined) => {
    if (!was || !is || is.provenance.kind !== "learned" || was.value === is.value) return;
    const factor = oddsOf(is.value) / oddsOf(was.value);
    // As shown: what differs in the last digits only goes equally far.
    const distance = Math.round(100 * Math.abs(Math.log(factor)));
    moved.push({ name, before: was.value, after: is.value, factor, why: is.provenance.note, distance, of: is.provenance.counts.of });
  };
  for (const cause of after.causes) compare(`${cause.name}: base figure`, before.causes.find(({ code }) => code === cause.code)?.base, cause.base);
  const nameOf = (code: string) => after.causes.find((cause) => cause.code === code)?.name ?? code;
  for (const finding of after.findings) {
    const was: FindingDefinition | undefined = before.findings.find(({ code }) => code === finding.code);
    if (finding.kind === "circumstance" || !was || was.kind === "circumstance") continue;
    for (const observer of finding.observers) {
      compare(`${finding.name}, seen by the ${observer} with none of its causes there`, was.background[observer], finding.background[observer]);
      for (const { cause, strength } of finding.links)
        compare(`${finding.name}, seen by the ${observer} from: ${nameOf(cause)}`, was.links.find((link) => link.cause === cause)?.strength[observer], strength[observer]);
    }
  }
  return moved.sort((a, b) => b.distance - a.distance || b.of - a.of).map(({ distance: _, of: __, ...figure }) => figure);
}
