import { beliefAfter } from "./belief";
import type { ClaimContext } from "./experience";
import type { Edition, FindingCode, FindingDefinition, Observer } from "./knowledge";
import { nextChecks } from "./next-checks";
import type { Observation } from "./observation";
import { clearReading } from "./physical-facts";
import type { NextCheck } from "./ranking";
import { type Decision, decide, type Stakes } from "./stakes";

/** Who may look, what is at stake, and what is known of kit and vehicle. */
export interface PlanQuestion {
  observers: readonly Observer[];
  stakes: Stakes;
  context: ClaimContext;
  /** Asked for already, or looked at without being able to tell: not asked again. */
  except: ReadonlySet<FindingCode>;
}

/** The best thing to do now: one more check, or to decide. */
export type BestStep =
  | { do: "decide"; decision: Decision; cost: number }
  | {
      do: "check";
      check: NextCheck;
      /** What it is expected to save in all, its price taken off. */
      saves: number;
      /** It pays only together with this one, after at least one answer. */
      together: FindingCode | null;
    };

/** Savings are compared to the cent. */
const A_CENT = 0.01;
/** So many checks are looked at two steps ahead, and only while so few signs are there that a sweep costs little. */
const LOOKED_AHEAD = 4;
const MOST_SIGNS = 8;

/**
 * The checks open to these observers, best first; of a check that several could make, the one that saves more.
 */
export function openChecks(observations: readonly Observation[], edition: Edition, { observers, stakes, context, except }: PlanQuestion): NextCheck[] {
  const net = ({ gain, price }: NextCheck) => gain - price;
  const all = observers.flatMap((observer) => nextChecks(observations, edition, { observer, stakes, context })).filter(({ finding }) => !except.has(finding));
  return all
    .filter((check) => !all.some((other) => other !== check && other.finding === check.finding && (net(other) > net(check) || (net(other) === net(check) && all.indexOf(other) < all.indexOf(check)))))
    .sort((a, b) => Math.round(Math.max(0, net(b)) / A_CENT) - Math.round(Math.max(0, net(a)) / A_CENT) || b.information / b.price - a.information / a.price);
}

/** The observation that an outcome stands for; of a measurement a clear reading on that side of its limit. */
export function observationOf(definition: FindingDefinition, observer: Observer, answer: string): Observation {
  const { code: finding } = definition;
  if (definition.kind !== "measurement") return { finding, observer, answer };
  return { finding, observer, measured: clearReading(definition, answer === "present") };
}

/** What is known once a check has come out in one way. */
export function afterOutcome(observations: readonly Observation[], { finding, observer }: NextCheck, answer: string, edition: Edition): readonly Observation[] {
  const definition = edition.findings.find(({ code }) => code === finding);
  if (!definition) throw new Error(`afterOutcome needs a finding of the edition, not ${finding}`);
  return [...observations, observationOf(definition, observer, answer)];
}

/**
 * The best step: the check that is expected to save most, its price taken off, or to decide where none saves anything.
 * A check that saves nothing by itself can open the way to one that does (where the vent leads, then whether an
 * element is in it): the most promising ones are weighed with the best check after each of their answers.
 *
 * Savings add up step by step: saves(f) = gain(f) - price(f) + sum over answers of P(answer) * best saving after it.
 * Ties go to the check that tells more for its price, then free before paid, safe before risky.
 *
 * Source: two-step look-ahead on the expected value of sample information (Raiffa and Schlaifer 1961; Heckerman,
 * Horvitz and Middleton 1993 on sets of tests, both from memory). Example: a check of price 3 that gains 2 at once, and
 * in one case of four opens one that saves 12, saves 2 - 3 + 0.25 * 12 = 2.
 */
export function bestStep(observations: readonly Observation[], edition: Edition, question: PlanQuestion, ahead: "one step" | "two steps" = "two steps"): BestStep | null {
  const belief = beliefAfter(observations, edition, question.context);
  if (!belief) return null;
  const checks = openChecks(observations, edition, question);
  const signs = observations.filter((one) => "answer" in one && one.answer === "present").length;
  const deep = ahead === "two steps" && signs <= MOST_SIGNS ? checks.slice(0, LOOKED_AHEAD) : [];

  let best: (BestStep & { do: "check" }) | null = null;
  for (const check of checks) {
    const alone = check.gain - check.price;
    const follow = deep.includes(check) ? followUp(check, observations, edition, question) : { saving: 0, by: null };
    const saves = alone + follow.saving;
    if (saves > (best?.saves ?? 0) + A_CENT) best = { do: "check", check, saves, together: alone > 0 ? null : follow.by };
  }
  return best ?? { do: "decide", ...decide(belief, question.stakes) };
}

/** What the best check after each answer is expected to save, and the one that saves most of it. */
function followUp(check: NextCheck, observations: readonly Observation[], edition: Edition, question: PlanQuestion): { saving: number; by: FindingCode | null } {
  let [saving, most, by]: [number, number, FindingCode | null] = [0, 0, null];
  for (const { answer, probability } of check.outcomes) {
    const [next] = openChecks(afterOutcome(observations, check, answer, edition), edition, question);
    const share = next ? probability * Math.max(0, next.gain - next.price) : 0;
    saving += share;
    if (share > most) [most, by] = [share, next?.finding ?? null];
  }
  return { saving, by };
}
