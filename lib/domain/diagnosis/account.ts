import type { Say } from "../say";
import type { Doubts } from "./explanation";
import type { Cause, Edition } from "./knowledge";
import type { EvidenceStep, Ranked, RankedCause, Ranking } from "./ranking";

/** A ranking in words: a headline that is a finding, and one or two sentences on how sure it is. */
export interface Account {
  headline: string;
  sentence: string;
}

/** From here on "most likely"; below `WORTH_A_GUESS` no more than a first guess at the part: which check comes first is for the plan to say. */
const LIKELY = 0.6;
const WORTH_A_GUESS = 0.35;
const WORTH_NAMING = 0.08;

/** From here on "not explained" is no longer small and is told as a result of its own (judgement). */
const NOT_SMALL = 0.1;
/** From here on no cause is likelier there than any. */
const MORE_LIKELY_THAN_NOT = 0.5;

export const isNotExplained = ({ notExplained }: Ranked) => notExplained >= NOT_SMALL;

/** Whole per cent, and never a false 0 or 100. */
export function percentInWords(probability: number): string {
  if (probability > 0 && probability < 0.005) return "under 1 %";
  if (probability < 1 && probability > 0.995) return "over 99 %";
  return `${Math.round(probability * 100)} %`;
}

/** Probability as a count out of ten, in words that stay true at both ends. */
function outOfTen(probability: number, say: Say): string {
  const tenths = Math.round(probability * 10);
  if (tenths >= 10) return say("account.often.nearlyAll");
  return tenths < 1 ? say("account.often.few") : say("account.often.some", { tenths });
}

interface Leader {
  cause: Cause;
  ranked: RankedCause;
}

function leadersOf(ranking: Ranked, edition: Edition): Leader[] {
  return ranking.causes.flatMap((ranked) => {
    const cause = edition.causes.find(({ code }) => code === ranked.code);
    return cause ? [{ cause, ranked }] : [];
  });
}

function customerHeadline(ranking: Ranked, { cause, ranked }: Leader, say: Say): string {
  if (ranking.notExplained >= MORE_LIKELY_THAN_NOT) return say("account.notExplained.headline");
  const named = { cause: cause.plainName };
  if (cause.attribution === "normal") return say(ranking.nothingWrong >= LIKELY ? "account.normal.sure" : "account.normal.perhaps", named);
  if (cause.attribution === "unit" && ranked.probability >= WORTH_A_GUESS) return say("account.unit", named);
  if (ranked.probability >= LIKELY) return say("account.likely", named);
  if (ranked.probability >= WORTH_A_GUESS) return say("account.perhaps", named);
  return say("account.tooEarly", { part: say(`browser.parts.${cause.part}`) });
}

function customerSentence(ranking: Ranked, { cause, ranked }: Leader, next: Leader | undefined, say: Say): string {
  if (ranking.notExplained >= MORE_LIKELY_THAN_NOT) return say("account.notExplained.sentence");
  const often = outOfTen(ranked.probability, say);
  return [
    ranked.probability < WORTH_A_GUESS ? say("account.several", { often, cause: cause.plainName }) : say("account.explains", { often }),
    ...(next && next.ranked.probability >= WORTH_NAMING ? [say("account.next", { cause: next.cause.plainName })] : []),
    ...(isNotExplained(ranking) ? [say("account.unknownToo")] : []),
  ].join(" ");
}

/** Asks for another look at the customer's own answers, by their questions; null where they gave none of them. */
function pleaseLookAgain(steps: readonly EvidenceStep[], edition: Edition, say: Say): string | null {
  const questions = steps.flatMap(({ finding, observer }) => edition.findings.find(({ code }) => observer === "customer" && code === finding)?.question ?? []);
  return questions.length === 0 ? null : say("account.lookAgain", { questions: questions.map((question) => say("account.quoted", { question })).join(" ") });
}

/**
 * Account for the customer: what is most likely, in plain words and without blame, how sure that is, and which of the
 * customer's own answers is worth another look. The edition is given in the language of `say`.
 *
 * Example: "Most likely the oil drain runs level, uphill or with a sag", "This explains about 8 in 10 complaints like this."
 */
export function accountForCustomer(ranking: Ranking, edition: Edition, { conflicts, contradiction }: Doubts, say: Say): Account {
  if (ranking.outcome === "contradiction") {
    const again = contradiction && pleaseLookAgain(contradiction.anyOf.length > 0 ? contradiction.anyOf : contradiction.together, edition, say);
    return { headline: say("account.contradiction.headline"), sentence: `${say("account.contradiction.sentence")} ${again ?? say("account.contradiction.person")}` };
  }
  const [leader, next] = leadersOf(ranking, edition);
  if (!leader) throw new Error("accountForCustomer needs an edition that knows the causes of the ranking");
  // The least fitting one is enough to ask for; with it put right the others may fit.
  const again = pleaseLookAgain(conflicts.slice(0, 1).map(({ step }) => step), edition, say);
  return {
    headline: customerHeadline(ranking, leader, say),
    sentence: [customerSentence(ranking, leader, next, say), ...(again ? [say("account.doesNotFit"), again] : [])].join(" "),
  };
}

/**
 * Account for staff in brief: the leading cause and the chance that the unit is defective, then what stands behind it.
 *
 * Example: "Drain runs level, rises or sags: 81 %; unit defective: 2 %", "Next: Drain kinked, crushed or blocked 5 %;
 * nothing wrong 2 %; not explained 1 %."
 */
export function accountForStaff(ranking: Ranking, edition: Edition): Account {
  if (ranking.outcome === "contradiction") {
    return { headline: "What was found does not fit together", sentence: "No cause known here gives these findings at once: one of them needs to be looked at again." };
  }
  const [leader, next] = leadersOf(ranking, edition);
  if (!leader) throw new Error("accountForStaff needs an edition that knows the causes of the ranking");
  const isUnknown = ranking.notExplained >= MORE_LIKELY_THAN_NOT;
  const named = ({ cause, ranked }: Leader) => `${cause.name} ${percentInWords(ranked.probability)}`;
  const behind = [
    ...(isUnknown ? [named(leader)] : next ? [named(next)] : []),
    `nothing wrong ${percentInWords(ranking.nothingWrong)}`,
    ...(isUnknown ? [] : [`not explained ${percentInWords(ranking.notExplained)}`]),
  ];
  const first = isUnknown ? `No known cause explains it: ${percentInWords(ranking.notExplained)}` : `${leader.cause.name}: ${percentInWords(leader.ranked.probability)}`;
  return { headline: `${first}; unit defective: ${percentInWords(ranking.unitDefective)}`, sentence: `Next: ${behind.join("; ")}.` };
}
