import { isNotExplained, percentInWords } from "./account";
import { ATTRIBUTIONS, type Attribution } from "./attributions";
import type { Conflict } from "./conflicts";
import type { Contradiction } from "./contradiction";
import type { Explanation, OpenFinding } from "./explanation";
import type { CauseCode, Edition, FindingCode } from "./knowledge";
import type { ChangedAnswer, LeaderChange } from "./leader-change";
import { COMPLAINT, EXPERIENCE, type EvidenceStep, evidenceOf, type Ranked } from "./ranking";

/** One paragraph of the account for staff, under a name. */
export interface AccountPart {
  name: string;
  text: string;
}

const MOST_NAMED = 3;
/** Weights below this move the odds by less than a twentieth. */
const WORTH_NAMING = 0.05;

const WHOSE: Readonly<Record<Attribution, string>> = {
  fit: "the fitting",
  kit: "the kit",
  engine: "the engine",
  unit: "the unit",
  normal: "normal",
  transit: "carriage",
  elsewhere: "elsewhere on the vehicle",
};

const causeName = (code: CauseCode, edition: Edition) => edition.causes.find((cause) => cause.code === code)?.name ?? code;
const findingName = (code: FindingCode, edition: Edition) => edition.findings.find((finding) => finding.code === code)?.name ?? code;

/** How many times the odds grow or shrink. */
export function timesInWords(weight: number): string {
  const factor = Math.exp(Math.abs(weight));
  const shown = factor >= 100 ? "over 100" : factor >= 10 ? factor.toFixed(0) : factor.toFixed(1);
  return weight > 0 ? `\u00d7\u00a0${shown}` : `\u00f7\u00a0${shown}`;
}

/** A finding and what was found, as the edition words it: "Run of the drain: level or uphill". */
export function stepInWords({ finding, answer }: EvidenceStep, edition: Edition): string {
  if (finding === EXPERIENCE) return "Earlier claims about this kit";
  const label = edition.findings.find(({ code }) => code === finding)?.options.find(({ value }) => value === answer)?.label;
  return `${findingName(finding, edition)}: ${label ?? answer}`;
}

function changedInWords({ from, to }: ChangedAnswer, edition: Edition): string {
  const definition = edition.findings.find(({ code }) => code === to.finding);
  const label = (answer: string) => definition?.options.find(({ value }) => value === answer)?.label ?? answer;
  const other = "answer" in to ? `\u201c${label(to.answer)}\u201d instead of \u201c${label(from.answer)}\u201d` : `clearly on the other side of its limit instead of ${from.answer}`;
  return `${findingName(to.finding, edition)}: ${other}`;
}

/** What would change the leader, in a sentence. */
export function changeInWords(change: LeaderChange | null, edition: Edition): string {
  if (!change) return "Neither one other answer nor two of those that move it most would put another cause first.";
  const answers = change.answers.map((answer) => changedInWords(answer, edition)).join(", and ");
  return `${answers}. Then this would lead, with ${percentInWords(change.probability)}: ${causeName(change.leader, edition)}.`;
}

/** One conflict in two sentences, with the kind of it. */
export function conflictInWords({ step, kind, probability }: Conflict, edition: Edition): string {
  const found = stepInWords(step, edition);
  const rule = kind === "unexplained" ? "nothing known that fits the rest explains it" : "the rest leads one to expect otherwise";
  return `${found}; ${rule}. Going by everything else its chance was ${percentInWords(probability)}.`;
}

/** What to look at again, in a sentence. */
export function contradictionInWords({ anyOf, together }: Contradiction, edition: Edition): string {
  const list = (steps: readonly EvidenceStep[]) => steps.map((step) => stepInWords(step, edition)).join("; ");
  if (together.length === 1 && anyOf.length === 1) return `This cannot be true: ${list(together)}. Look at it again; without it the rest is possible.`;
  const impossible = `These cannot be true together: ${list(together)}.`;
  if (anyOf.length === 0) return `${impossible} More than one finding has to be looked at again.`;
  return anyOf.length === together.length ? `${impossible} Look at each of them again; without any one of them the rest is possible.` : `${impossible} Look again at ${list(anyOf)}; without it the rest is possible.`;
}

/** What nobody has looked at and could change the leader, with the chance that it does and who leads then. */
export function openInWords(open: readonly OpenFinding[], edition: Edition): string {
  if (open.length === 0) return "Nothing that can still be looked at would change who leads.";
  const named = open.slice(0, MOST_NAMED).map(({ finding, leader, probability }) => `${findingName(finding, edition)} ${percentInWords(probability)} (${causeName(leader, edition)})`);
  const rest = open.length - named.length;
  return `With the chance that it puts another cause first: ${named.join("; ")}${rest > 0 ? `; and ${rest} more` : ""}.`;
}

/**
 * Account for staff in full: who leads, what speaks for and against it, what would change that, what does not fit, what
 * is open, and whose it may be; each a paragraph that stands by itself.
 *
 * Example: "For it", "Run of the drain: level or uphill (\u00d7 12)."
 */
export function fullAccount(ranking: Ranked, { change, conflicts }: Explanation, open: readonly OpenFinding[], edition: Edition): AccountPart[] {
  const [leader] = ranking.causes;
  if (!leader) return [];
  const weighed = evidenceOf(ranking, leader).filter(({ finding, weight }) => finding !== COMPLAINT && Math.abs(weight) >= WORTH_NAMING);
  const heaviest = (isFor: boolean) =>
    weighed
      .filter(({ weight }) => weight > 0 === isFor)
      .sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight))
      .slice(0, MOST_NAMED)
      .map((one) => `${stepInWords(one, edition)} (${timesInWords(one.weight)})`);
  const orNothing = (list: readonly string[]) => (list.length > 0 ? `${list.join("; ")}.` : "Nothing that was found.");
  const whose = ATTRIBUTIONS.filter((name) => ranking.attributions[name] >= 0.005)
    .sort((a, b) => ranking.attributions[b] - ranking.attributions[a])
    .map((name) => `${WHOSE[name]} ${percentInWords(ranking.attributions[name])}`);
  return [
    { name: "Leads", text: `${causeName(leader.code, edition)}, ${percentInWords(leader.probability)}; among all fitted units ${percentInWords(leader.base)}.` },
    { name: "For it", text: orNothing(heaviest(true)) },
    { name: "Against it", text: orNothing(heaviest(false)) },
    { name: "Would change it", text: changeInWords(change, edition) },
    { name: "Still open", text: openInWords(open, edition) },
    { name: "Does not fit", text: conflicts.length > 0 ? conflicts.map((one) => conflictInWords(one, edition)).join(" ") : "Every finding fits with the rest." },
    { name: "Whose it may be", text: `${whose.join("; ")}. Causes may hold together, so these need not add up.` },
    { name: "None of it", text: `Nothing wrong ${percentInWords(ranking.nothingWrong)}; not explained by any known cause ${percentInWords(ranking.notExplained)}${isNotExplained(ranking) ? ", which is not small" : ""}.` },
  ];
}
