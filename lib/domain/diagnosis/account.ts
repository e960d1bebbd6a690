import type { Cause, Edition } from "./knowledge";
import { OIL_PATH_PARTS } from "./oil-path";
import type { Ranked, RankedCause, Ranking } from "./ranking";

/** A ranking in words: a headline that is a finding, and one sentence on how sure it is. */
export interface Account {
  headline: string;
  sentence: string;
}

/** From here on "most likely"; below `WORTH_A_GUESS` only where to look first. */
const LIKELY = 0.6;
const WORTH_A_GUESS = 0.35;
const WORTH_NAMING = 0.08;

const percent = (probability: number) => (probability > 0 && probability < 0.01 ? "under 1 %" : `${Math.round(probability * 100)} %`);

/** Probability as a count out of ten, in words that stay true at both ends. */
function outOfTen(probability: number): string {
  const tenths = Math.round(probability * 10);
  if (tenths >= 10) return "nearly all claims like this";
  if (tenths < 1) return "fewer than 1 in 10 claims like this";
  return `about ${tenths} in 10 claims like this`;
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

function customerHeadline(ranking: Ranked, { cause, ranked }: Leader): string {
  if (cause.attribution === "normal") {
    const sure = ranking.nothingWrong >= LIKELY ? "Most likely" : "Perhaps";
    return `${sure} nothing is wrong: ${cause.plainName}`;
  }
  if (cause.attribution === "unit" && ranked.probability >= WORTH_A_GUESS) {
    return `The unit itself may be at fault: ${cause.plainName}`;
  }
  if (ranked.probability >= LIKELY) return `Most likely ${cause.plainName}`;
  if (ranked.probability >= WORTH_A_GUESS) return `Perhaps ${cause.plainName}`;
  return `Too early to say: look at the ${OIL_PATH_PARTS[cause.part].name.toLowerCase()} first`;
}

/**
 * Account for the customer: what is most likely, in plain words and without blame, and how sure that is.
 *
 * Example: "Most likely the oil drain runs level, uphill or with a sag", "That explains about 8 in 10 claims like
 * this."
 */
export function accountForCustomer(ranking: Ranking, edition: Edition): Account {
  if (ranking.outcome === "contradiction") return DOES_NOT_FIT;
  const [leader, next] = leadersOf(ranking, edition);
  if (!leader) return DOES_NOT_FIT;
  const isGuess = leader.ranked.probability < WORTH_A_GUESS;
  const first = isGuess
    ? `Several things could explain it; that ${leader.cause.plainName} fits ${outOfTen(leader.ranked.probability)}`
    : `This explains ${outOfTen(leader.ranked.probability)}`;
  const second = next && next.ranked.probability >= WORTH_NAMING ? `; after it comes that ${next.cause.plainName}` : "";
  return { headline: customerHeadline(ranking, leader), sentence: `${first}${second}.` };
}

/**
 * Account for staff: the leading cause and the chance that the unit is defective, then what stands behind it.
 *
 * Example: "Drain runs level, rises or sags: 81 %; unit defective: 2 %", "Next: Drain kinked, crushed or blocked 5 %;
 * nothing wrong 2 %; not explained 1 %."
 */
export function accountForStaff(ranking: Ranking, edition: Edition): Account {
  if (ranking.outcome === "contradiction") return DOES_NOT_FIT;
  const [leader, next] = leadersOf(ranking, edition);
  if (!leader) return DOES_NOT_FIT;
  const behind = [
    ...(next ? [`${next.cause.name} ${percent(next.ranked.probability)}`] : []),
    `nothing wrong ${percent(ranking.nothingWrong)}`,
    `not explained ${percent(ranking.notExplained)}`,
  ];
  return {
    headline: `${leader.cause.name}: ${percent(leader.ranked.probability)}; unit defective: ${percent(ranking.unitDefective)}`,
    sentence: `Next: ${behind.join("; ")}.`,
  };
}

const DOES_NOT_FIT: Account = {
  headline: "What was found does not fit together",
  sentence: "No cause known here gives these findings at once: one of them needs to be looked at again.",
};
