import type { Edition, FindingCode, FindingDefinition } from "./knowledge";
import type { Observation } from "./observation";
import { oneObservationEach } from "./standing-observations";

/**
 * Whether a question makes sense yet: those that name a condition are asked only once the finding they hang on was
 * answered in one of the ways named.
 *
 * Example: whether an element is left in the vent is asked once the vent is known to lead to the open air.
 */
export function isAskable({ askedWhen }: FindingDefinition, observations: readonly Observation[]): boolean {
  if (!askedWhen) return true;
  const known = oneObservationEach(observations).get(askedWhen.finding);
  return known !== undefined && "answer" in known && askedWhen.answers.includes(known.answer);
}

/**
 * A cycle of questions, each asked only once the next is answered, so that none ever is; null where there is none. The
 * first comes last again.
 *
 * Example: F24 asked when F25 is told and F25 when F24 is: ["F24", "F25", "F24"].
 */
export function cycleOfQuestions({ findings }: Pick<Edition, "findings">): readonly FindingCode[] | null {
  const waitsFor = new Map(findings.map(({ code, askedWhen }) => [code, askedWhen?.finding]));
  for (const { code } of findings) {
    const way: FindingCode[] = [];
    for (let at: FindingCode | undefined = code; at !== undefined; at = waitsFor.get(at)) {
      if (way.includes(at)) return [...way.slice(way.indexOf(at)), at];
      way.push(at);
    }
  }
  return null;
}
