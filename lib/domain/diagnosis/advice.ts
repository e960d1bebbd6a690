import type { Say } from "../say";
import { type Account, accountForCustomer, accountForStaff } from "./account";
import { doubtsAbout } from "./explanation";
import type { CautionCode, Edition, FindingCode, Observer } from "./knowledge";
import { nextChecks } from "./next-checks";
import type { Observation } from "./observation";
import type { Ranking } from "./ranking";
import type { Stakes } from "./stakes";

/** A check as it is put to whoever is to make it. */
export interface AdvisedCheck {
  finding: FindingCode;
  name: string;
  how: string;
  why: string;
  minutes: number;
  tools: readonly string[];
  cautions: readonly CautionCode[];
}

export interface FirstAdvice {
  account: Account;
  /** Free and safe, best first. */
  checks: readonly AdvisedCheck[];
}

const MOST_CHECKS = 5;

/**
 * First advice: what the ranking says in plain words, and the checks that cost nothing and are safe, in the best
 * order, each with how to do it and its cautions.
 *
 * Example: oil on the turbine side and nothing else known: the run of the drain comes first.
 */
export function firstAdvice(
  ranking: Ranking,
  observations: readonly Observation[],
  edition: Edition,
  { observer, stakes }: { observer: Observer; stakes: Stakes },
  say: Say,
): FirstAdvice {
  const account = observer === "customer" ? accountForCustomer(ranking, edition, doubtsAbout(observations, edition, ranking.context), say) : accountForStaff(ranking, edition);
  return { account, checks: freeChecks(observations, edition, { observer, stakes, context: ranking.context }) };
}

/** The checks that cost nothing and are safe, in the best order: what can be told before anything is ranked. */
export function freeChecks(observations: readonly Observation[], edition: Edition, asked: Parameters<typeof nextChecks>[2]): AdvisedCheck[] {
  const checks = nextChecks(observations, edition, asked).flatMap(({ finding, cost }) => {
    const definition = edition.findings.find(({ code }) => code === finding);
    // Nobody is sent to run an engine by a list.
    if (!definition || definition.runsEngine || cost !== "none") return [];
    const { name, how, why, minutes, tools, cautions } = definition;
    return [{ finding, name, how, why, minutes, tools, cautions }];
  });
  return checks.slice(0, MOST_CHECKS);
}
