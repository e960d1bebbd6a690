import { type CauseCode, type Figure, type FindingDefinition, type Link, type MeasuredFinding, OBSERVERS, type Observer, type SignFinding } from "../diagnosis/knowledge";
import { fitNoisyOrLinks, type LinkRow } from "../statistics/noisy-or-links";
import { boundedMove } from "./bounded-move";
import { looksAt, sitesOf, type VerdictCounts } from "./verdict-counts";

/** What each of the edition's figures counts for, in looks with that cause alone there (judgement). */
export const PRIOR_LOOKS = 12;
/** A figure is left as it is on fewer looks. */
const LEAST_LOOKS = 5;

/** Rounds of the EM algorithm for the sites; each halves what is left, or better. */
const ROUNDS = 12;

type Shown = SignFinding | MeasuredFinding;

/** Chances of one finding for one observer. */
interface Chances {
  background: number;
  /** In the order of the finding's links. */
  links: readonly number[];
}

const chancesOf = ({ background, links }: Shown, observer: Observer): Chances => ({
  background: background[observer].value,
  links: links.map(({ strength }) => strength[observer].value),
});

/** Chance to be seen with the causes at these places there. */
function chanceAt({ background, links }: Chances, causes: readonly number[]): number {
  return 1 - causes.reduce((absent, place) => absent * (1 - (links[place] ?? 0)), 1 - background);
}

/**
 * Background and links of one finding for one observer after counting looks with confirmed causes.
 *
 * A finding seen with a cause may still come from the background or from another cause, so that counting "seen with the
 * cause" would find 1 - (1 - background)(1 - link). With the causes confirmed the logarithm of its chance to be absent is
 * a sum, and one fit gives background and links at once (`fitNoisyOrLinks`). What the edition says joins as looks that
 * nobody made: for each link so many with that cause alone there, and as many with none.
 *
 * Example: a link of 0.6 with a background of 0.1 joins as 12 looks, 7.7 of them present. 20 looks with the cause there,
 * 18 of them present, move the link to about 0.78.
 */
function fitChances(prior: Chances, rows: readonly LinkRow[]): Chances {
  const made = (causes: readonly number[]): LinkRow => {
    const chance = chanceAt(prior, causes);
    return { causes, present: PRIOR_LOOKS * chance, absent: PRIOR_LOOKS * (1 - chance) };
  };
  const { leak, links } = fitNoisyOrLinks([made([]), ...prior.links.map((_, place) => made([place])), ...rows], prior.links.length);
  return { background: leak, links };
}

/**
 * The sites, for one observer. Nobody complains of a dry unit, so that among claims every site is wet too often. For
 * each claim with certain causes there were D / (1 - D) units that nobody complained of, D being the chance that every
 * site is found dry: they join as dry looks, by the figures of the round before (EM algorithm for truncated data;
 * Dempster, Laird and Rubin 1977, from memory).
 */
function fitSites(sites: readonly SignFinding[], observer: Observer, counts: VerdictCounts): Chances[] {
  const priors = sites.map((site) => chancesOf(site, observer));
  let fitted = priors;
  for (let round = 0; round < ROUNDS; round++) {
    const chanceDry = (there: ReadonlySet<CauseCode>) =>
      sites.reduce((dry, { links }, index) => {
        const causes = links.flatMap(({ cause }, place) => (there.has(cause) ? [place] : []));
        return dry * (1 - chanceAt(fitted[index] ?? { background: 0, links: [] }, causes));
      }, 1);
    fitted = sites.map(({ code, links }, index) => {
      const rows = [...(looksAt(counts, code, observer)?.rows.values() ?? [])].map(({ causes, present, absent }): LinkRow => {
        const dry = chanceDry(new Set(causes.flatMap((place) => links[place]?.cause ?? [])));
        return { causes, present, absent: absent + ((present + absent) * dry) / Math.max(1e-6, 1 - dry) };
      });
      return fitChances(priors[index] ?? { background: 0, links: [] }, rows);
    });
  }
  return fitted;
}

/** A figure in force moved to what was learned, with the looks behind it; left alone where there are too few. */
function movedFigure(inForce: Figure, learned: number, { of, hits }: { of: number; hits: number }, when: string): Figure {
  if (of < LEAST_LOOKS) return inForce;
  const note = `seen in ${Math.round(hits)} of ${of} looks ${when}; before ${inForce.value.toPrecision(3)}`;
  return { value: boundedMove(inForce.value, learned), provenance: { kind: "learned", note, counts: { of, hits: Math.round(hits) } } };
}

/** A finding in force with what was learned for one observer. */
function withChances<F extends Shown>(present: F, prior: Shown, observer: Observer, learned: Chances, counts: VerdictCounts): F {
  const looks = looksAt(counts, present.code, observer);
  if (!looks) return present;
  const background = movedFigure(present.background[observer], learned.background, looks.alone, "with none of its causes there");
  const links = present.links.map((link): Link => {
    const place = prior.links.findIndex(({ cause }) => cause === link.cause);
    const figure = movedFigure(link.strength[observer], learned.links[place] ?? 0, looks.looks[place] ?? { of: 0, hits: 0 }, "with the cause there, whatever else showed it");
    return { ...link, strength: { ...link.strength, [observer]: figure } };
  });
  return { ...present, background: { ...present.background, [observer]: background }, links };
}

/**
 * Findings with the links and backgrounds that verdicts have taught, per observer.
 *
 * @param present findings in force, from whose figures one proposal moves only so far; the counts bring those before
 * any learning, around which the looks are counted
 */
export function learnFindings(present: readonly FindingDefinition[], counts: VerdictCounts): FindingDefinition[] {
  const priorSites = sitesOf(counts.edition.findings);
  const sites = new Map(OBSERVERS.map((observer) => [observer, fitSites(priorSites, observer, counts)]));
  return present.map((finding): FindingDefinition => {
    const prior = counts.edition.findings.find(({ code }) => code === finding.code);
    if (finding.kind === "circumstance" || !prior || prior.kind === "circumstance") return finding;
    return finding.observers.reduce((learned: Shown, observer) => {
      const looks = looksAt(counts, finding.code, observer);
      if (!looks || ![looks.alone, ...looks.looks].some(({ of }) => of >= LEAST_LOOKS)) return learned;
      const chances = finding.kind === "site" ? sites.get(observer)?.[priorSites.findIndex(({ code }) => code === finding.code)] : fitChances(chancesOf(prior, observer), [...looks.rows.values()]);
      return chances ? withChances(learned, prior, observer, chances, counts) : learned;
    }, finding);
  });
}
