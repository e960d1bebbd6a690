import type { Origin, Attribution } from "../diagnosis/attributions";
import type { CauseCode, FindingCode } from "../diagnosis/knowledge";
import type { Ranking } from "../diagnosis/ranking";
import { COMPLAINT, evidenceOf } from "../diagnosis/ranking";

/** One decided claim as a supplier may know it: the unit and what was found, nothing of whose it is. */
export interface SupplierCase {
  /** Serial and batch as the unit was sold: the supplier needs them to look it up. */
  serial: string | null;
  batch: string | null;
  shippedOn: Date | null;
  monthInService: number | null;
  cause: CauseCode;
  attribution: Attribution;
  origin: Origin | null;
  /** What the bench found: an answer of the edition, or a number. */
  bench: readonly { code: FindingCode; answer: string | null; measured: number | null }[];
  /** Play that a sound unit of its model may show. */
  limits: { axialPlayMinMm: number; axialPlayMaxMm: number; radialPlayMaxMm: number } | null;
  /** The finding that spoke most for the cause; that somebody complains is none. */
  decisive: { finding: FindingCode; answer: string } | null;
}

/**
 * The finding that spoke most clearly for the cause of the verdict, in the ranking it was given on.
 *
 * Source: I. J. Good's weight of evidence, as the ranking keeps it. Example: a level drain seen at 2.3 and oil at the
 * turbine at 0.8 for C01 make the drain's run decisive.
 *
 * @returns null where nothing spoke for it
 */
export function decisiveFinding(ranking: Ranking | null, cause: CauseCode): SupplierCase["decisive"] {
  if (ranking?.outcome !== "ranked") return null;
  const ranked = ranking.causes.find(({ code }) => code === cause);
  if (!ranked) return null;
  const [best] = evidenceOf(ranking, ranked)
    .filter(({ finding, observer, weight }) => finding !== COMPLAINT && observer !== null && weight > 0)
    .sort((a, b) => b.weight - a.weight);
  return best ? { finding: best.finding, answer: best.answer } : null;
}

export interface Tally {
  finding: FindingCode;
  answer: string;
  cases: number;
}

/** How often each answer was found, the most frequent first. */
export function tally(found: readonly { finding: FindingCode; answer: string }[]): Tally[] {
  const tallies = new Map<string, Tally>();
  for (const { finding, answer } of found) {
    const key = `${finding} ${answer}`;
    tallies.set(key, { finding, answer, cases: (tallies.get(key)?.cases ?? 0) + 1 });
  }
  return [...tallies.values()].sort((a, b) => b.cases - a.cases || a.finding.localeCompare(b.finding));
}

/** Smallest, middle and largest of some numbers; null for none. */
export function rangeOf(values: readonly number[]): { least: number; median: number; most: number } | null {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  const [least, most, below, above] = [sorted[0], sorted.at(-1), sorted[Math.floor(middle)], sorted[Math.ceil(middle)]];
  return least === undefined || most === undefined || below === undefined || above === undefined ? null : { least, median: (below + above) / 2, most };
}

/**
 * The first of these that a text gives away, in whatever case it is written; null for none. Short ones are passed over:
 * they stand in any text.
 */
export function givesAway(text: string, secrets: readonly (string | null)[]): string | null {
  const plain = (words: string) => words.normalize("NFKC").toLowerCase().replace(/\s+/g, " ").trim();
  const said = plain(text);
  return secrets.find((secret) => secret !== null && plain(secret).length >= 4 && said.includes(plain(secret))) ?? null;
}
