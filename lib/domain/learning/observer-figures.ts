import type { Figure, FigurePerObserver, FindingDefinition, Link, MeasuredFinding, Observer, SignFinding } from "../diagnosis/knowledge";
import { fitNoisyOrLinks, type LinkRow } from "../statistics/noisy-or-links";
import { boundedMove } from "./bounded-move";
import { looksAt, type VerdictCounts } from "./verdict-counts";

/** What each of the edition's figures counts for, in looks with that cause alone there (judgement). */
export const PRIOR_LOOKS = 12;
/** A figure is left as it is on fewer looks. */
export const LEAST_LOOKS = 5;

type Shown = SignFinding | MeasuredFinding;

/**
 * Links and background of one finding for one observer after counting looks with confirmed causes.
 *
 * A finding seen with a cause may still come from the background or from another cause, so that counting "seen with the
 * cause" would find 1 - (1 - background)(1 - link). With the causes confirmed the logarithm of its chance to be absent is
 * a sum, and one fit gives background and links at once (`fitNoisyOrLinks`). What the edition says joins as looks that
 * nobody made: for each link so many with that cause alone there, and as many with none.
 *
 * Example: a link of 0.6 with a background of 0.1 joins as 12 looks, 7.7 of them present. 20 looks with the cause there,
 * 18 of them present, move the link to about 0.78.
 *
 * @param present the finding as it is in force, from whose figures one proposal moves only so far
 * @returns null where there are too few looks to say anything
 */
function learnFigures(definition: Shown, present: Shown, observer: Observer, counts: VerdictCounts): { background: Figure; links: Figure[] } | null {
  const looks = looksAt(counts, definition.code, observer);
  if (!looks || ![looks.alone, ...looks.looks].some(({ of }) => of >= LEAST_LOOKS)) return null;
  const background = definition.background[observer].value;
  const prior: LinkRow[] = [
    { causes: [], present: PRIOR_LOOKS * background, absent: PRIOR_LOOKS * (1 - background) },
    ...definition.links.map(({ strength }, place): LinkRow => {
      const absent = (1 - background) * (1 - strength[observer].value);
      return { causes: [place], present: PRIOR_LOOKS * (1 - absent), absent: PRIOR_LOOKS * absent };
    }),
  ];
  const fit = fitNoisyOrLinks([...prior, ...looks.rows.values()], definition.links.length);
  const figure = (inForce: Figure, learned: number, { of, hits }: { of: number; hits: number }, when: string): Figure => {
    if (of < LEAST_LOOKS) return inForce;
    const note = `seen in ${Math.round(hits)} of ${of} looks ${when}; before ${inForce.value.toPrecision(3)}`;
    return { value: boundedMove(inForce.value, learned), provenance: { kind: "learned", note, counts: { of, hits: Math.round(hits) } } };
  };
  return {
    background: figure(present.background[observer], fit.leak, looks.alone, "with none of its causes there"),
    links: definition.links.map(({ cause }, place) => {
      const inForce = present.links.find((link) => link.cause === cause)?.strength[observer] ?? definition.links[place]?.strength[observer];
      if (!inForce) throw new Error("learnFigures needs a link for each of the finding's causes");
      return figure(inForce, fit.links[place] ?? 0, looks.looks[place] ?? { of: 0, hits: 0 }, "with the cause there");
    }),
  };
}

/** A finding in force with the figures that verdicts have taught, per observer; `prior` is the same finding as the counts were taken around. */
export function learnFinding(present: FindingDefinition, prior: FindingDefinition, counts: VerdictCounts): FindingDefinition {
  if (present.kind === "circumstance" || prior.kind === "circumstance") return present;
  let background: FigurePerObserver = present.background;
  let links: readonly Link[] = present.links;
  for (const observer of present.observers) {
    const learned = learnFigures(prior, present, observer, counts);
    if (!learned) continue;
    background = { ...background, [observer]: learned.background };
    links = links.map((link) => {
      const figure = learned.links[prior.links.findIndex(({ cause }) => cause === link.cause)];
      return figure ? { ...link, strength: { ...link.strength, [observer]: figure } } : link;
    });
  }
  return { ...present, background, links };
}
