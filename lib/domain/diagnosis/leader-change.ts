import { claimNetwork } from "./claim-network";
import { stepOf } from "./evidence-step";
import type { ClaimContext } from "./experience";
import { indexedEdition } from "./indexed-edition";
import { inferCauses } from "./infer-causes";
import type { CauseCode, Edition, FindingCode } from "./knowledge";
import type { Observation } from "./observation";
import { clearReading } from "./physical-facts";
import type { EvidenceStep } from "./ranking";
import { oneObservationEach, type StandingObservation, standingObservations } from "./standing-observations";

/** One answer that would have to be otherwise. */
export interface ChangedAnswer {
  from: EvidenceStep;
  /** A measurement is put clearly on the other side of its limit. */
  to: Observation;
}

/** The fewest answers that would have to be otherwise for another cause to lead. */
export interface LeaderChange {
  /** One or two. */
  answers: readonly ChangedAnswer[];
  leader: CauseCode;
  probability: number;
}

/** Pairs are tried among this many findings. */
const MOST_IN_PAIRS = 12;

interface Try {
  answers: readonly (ChangedAnswer & { logShare: number })[];
  /** The place of the cause that leads then. */
  leader: number;
  probability: number;
  /** By how much the leader as it stands is ahead of the best other cause then, in log-odds. */
  ahead: number;
  /** Natural log of how probable these answers are. */
  logEvidence: number;
}

/** The answers that would be otherwise for one counted observation. */
function otherAnswers(one: StandingObservation, told: Observation): ChangedAnswer[] {
  const { definition } = one;
  const { finding, observer } = told;
  if (definition.kind === "measurement") {
    const isBeyond = one.kind === "evidence" && one.weightOn > one.weightOff;
    return [{ from: stepOf(one), to: { finding, observer, measured: clearReading(definition, !isBeyond) } }];
  }
  return definition.options.filter(({ value }) => value !== one.shown).map(({ value }) => ({ from: stepOf(one), to: { finding, observer, answer: value } }));
}

/** How much more common another answer to a circumstance is, in natural log; of looks the evidence says it. */
function logShareOf(one: StandingObservation, { to }: ChangedAnswer): number {
  if (one.kind !== "circumstance" || !("answer" in to)) return 0;
  const share = (answer: string) => one.definition.options.find(({ value }) => value === answer)?.share?.value;
  const [before, after] = [share(one.shown), share(to.answer)];
  return before && after ? Math.log(after / before) : 0;
}

/**
 * Change of the leader: the fewest answers that would have to be otherwise for another cause to lead, each tried exactly,
 * with everything that follows from it for the other findings. All single answers first, then pairs among the twelve
 * findings that move the leader most; of equally many the most probable.
 *
 * Null where neither one nor two do, or where what was found cannot happen.
 *
 * Example: a wet turbine with a level drain is led by the drain's run; were that to fall all the way, the next cause of the
 * drain would lead: one answer.
 */
export function smallestLeaderChange(observations: readonly Observation[], edition: Edition, context: ClaimContext): LeaderChange | null {
  const chosen = oneObservationEach(observations);
  const ledNow = leaderOf([...chosen.values()], edition, context);
  if (!ledNow) return null;
  const attempt = (answers: Try["answers"]): Try[] => {
    const changed = new Map<FindingCode, Observation>([...chosen, ...answers.map(({ to }) => [to.finding, to] as const)]);
    if (isAllDry(changed, edition) && !isAllDry(chosen, edition)) return [];
    const led = leaderOf([...changed.values()], edition, context);
    if (!led) return [];
    const lead = led.logOdds[ledNow.leader] ?? Number.NEGATIVE_INFINITY;
    const ahead = Math.min(Number.MAX_VALUE, lead - Math.max(...led.logOdds.filter((_, cause) => cause !== ledNow.leader)));
    return [{ answers, leader: led.leader, probability: led.probability, ahead, logEvidence: answers.reduce((sum, { logShare }) => sum + logShare, led.logEvidence) }];
  };

  const singles = standingObservations(observations, edition).counted.flatMap((one) => {
    const told = chosen.get(one.definition.code);
    return told ? otherAnswers(one, told).flatMap((other) => attempt([{ ...other, logShare: logShareOf(one, other) }])) : [];
  });
  return mostProbable(singles, ledNow.leader, edition) ?? mostProbable(pairsOf(singles).flatMap(attempt), ledNow.leader, edition);
}

/** With every site dry nobody would have complained: no answer is tried that leaves nothing to explain. */
function isAllDry(chosen: ReadonlyMap<FindingCode, Observation>, edition: Edition): boolean {
  return indexedEdition(edition).sites.every(({ code }) => {
    const told = chosen.get(code);
    return told !== undefined && "answer" in told && told.answer === "absent";
  });
}

/** Pairs of answers to two findings, of those that move the leader most. */
function pairsOf(singles: readonly Try[]): Try["answers"][] {
  const best = new Map<FindingCode, Try>();
  for (const one of [...singles].sort((a, b) => a.ahead - b.ahead)) {
    const finding = one.answers[0]?.to.finding;
    if (finding !== undefined && !best.has(finding)) best.set(finding, one);
  }
  const tried = [...best.values()].slice(0, MOST_IN_PAIRS);
  return tried.flatMap((one, place) => tried.slice(place + 1).map((other) => [...one.answers, ...other.answers]));
}

function mostProbable(tries: readonly Try[], ledNow: number, edition: Edition): LeaderChange | null {
  const [best] = tries.filter(({ leader }) => leader !== ledNow).sort((a, b) => b.logEvidence - a.logEvidence);
  const leader = best && edition.causes[best.leader];
  return best && leader ? { answers: best.answers.map(({ from, to }) => ({ from, to })), leader: leader.code, probability: best.probability } : null;
}

interface Led {
  leader: number;
  probability: number;
  logOdds: readonly number[];
  logEvidence: number;
}

/** The likeliest cause, the first in the edition on a tie, as in a ranking; null where what was found cannot happen. */
function leaderOf(observations: readonly Observation[], edition: Edition, context: ClaimContext): Led | null {
  const { network, evidence } = claimNetwork(standingObservations(observations, edition).counted, edition, context);
  const posterior = inferCauses(network, evidence);
  if (posterior.outcome === "contradiction") return null;
  const { present, absent, logEvidence } = posterior;
  const probability = Math.max(...present);
  return { leader: present.indexOf(probability), probability, logEvidence, logOdds: present.map((p, cause) => Math.log(p / (absent[cause] ?? 0))) };
}
