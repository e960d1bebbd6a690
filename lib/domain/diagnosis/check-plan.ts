import { beliefAfter } from "./belief";
import { afterOutcome, bestStep, type PlanQuestion } from "./check-plan-step";
import type { Edition, FindingCode } from "./knowledge";
import type { Observation } from "./observation";
import type { NextCheck } from "./ranking";
import { type Belief, type Decision, decide } from "./stakes";

/** A plan of checks that may stop early: a short tree of checks, and what would be decided at its ends. */
export interface CheckPlan {
  /** Expected cost of deciding without another look. */
  costNow: number;
  /** Expected cost with the plan: its checks, and deciding after them. Never above `costNow`. */
  expectedCost: number;
  /** What would be decided now. */
  decisionNow: Decision;
  first: PlanStep;
}

export type PlanStep =
  | { do: "decide"; decision: Decision }
  /** Too far ahead or too unlikely to be planned now; what would be decided there without another look. */
  | { do: "look again"; decision: Decision }
  | {
      do: "check";
      check: NextCheck;
      together: FindingCode | null;
      /** It could change the decision that would be taken without it. */
      canChange: boolean;
      branches: readonly PlanBranch[];
    };

export interface PlanBranch {
  answer: string;
  /** That it comes out so, given the way there. */
  probability: number;
  belief: Belief;
  next: PlanStep;
}

/** The tree is as deep as somebody can keep in mind, and leaves out what is hardly ever reached. */
const MOST_STEPS = 2;
const LEAST_LIKELY = 0.08;

const isSame = (one: Decision, other: Decision) =>
  one.treatAs === other.treatAs && (one.treatAs === "defective" || other.treatAs === "defective" || one.adviseOn === other.adviseOn);

/**
 * Plan of checks: what to look at next, what then, after each answer, and when to stop and decide. It stops where no
 * check is expected to save more of the cost of a wrong decision than it costs itself.
 *
 * Null where what was found cannot happen. The expected cost is that of the tree as shown: what is left to "look
 * again" is counted as decided there, so that in truth it is no more.
 *
 * Source: see `bestStep`; a decision tree rolled back by it. Example: oil in the turbine and nothing else known: the
 * run of the drain first; level, and it is decided; falling all the way, and the next look follows.
 */
export function planChecks(observations: readonly Observation[], edition: Edition, question: PlanQuestion): CheckPlan | null {
  const belief = beliefAfter(observations, edition, question.context);
  if (!belief) return null;
  const { decision: decisionNow, cost: costNow } = decide(belief, question.stakes);
  const { step, saves } = grow(observations, edition, question, decisionNow, { depth: 0, probability: 1 });
  return { costNow, expectedCost: Math.max(0, costNow - saves), decisionNow, first: step };
}

interface Place {
  depth: number;
  /** That the plan comes here at all. */
  probability: number;
}

/** The tree from one place on, and what it saves there. */
function grow(observations: readonly Observation[], edition: Edition, question: PlanQuestion, decisionNow: Decision, { depth, probability: reached }: Place): { step: PlanStep; saves: number } {
  const best = depth < MOST_STEPS && reached >= LEAST_LIKELY ? bestStep(observations, edition, question, depth === 0 ? "two steps" : "one step") : null;
  if (!best) return { step: { do: "look again", decision: decisionNow }, saves: 0 };
  if (best.do === "decide") return { step: { do: "decide", decision: best.decision }, saves: 0 };
  const { check, together } = best;
  const grown = check.outcomes.map(({ answer, probability, known }) => {
    const after = decide(known, question.stakes).decision;
    const place = { depth: depth + 1, probability: reached * probability };
    return { answer, probability, known, after, ...grow(afterOutcome(observations, check, answer, edition), edition, question, after, place) };
  });
  return {
    step: {
      do: "check",
      check,
      together,
      canChange: grown.some(({ after }) => !isSame(after, decisionNow)),
      branches: grown.map(({ answer, probability, known, step }) => ({ answer, probability, belief: known, next: step })),
    },
    saves: check.gain - check.price + grown.reduce((sum, { probability, saves }) => sum + probability * saves, 0),
  };
}
