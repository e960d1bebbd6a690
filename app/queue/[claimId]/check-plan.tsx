import { Balloon } from "@/app/_components/balloon";
import type { PlanBranch, PlanStep } from "@/lib/domain/diagnosis/check-plan";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { Decision } from "@/lib/domain/diagnosis/stakes";
import type { ShownPlan } from "@/lib/operations/load-claim";
import { COST_WORDS, OBSERVER_WORDS } from "../words";
import css from "./claim.module.css";

/** What to look at next, what after each answer, and when to stop: a plan by what a wrong decision costs. */
export function CheckPlanTree({ shown: { plan, edition, currency } }: { shown: ShownPlan }) {
  const money = new Intl.NumberFormat("en", { style: "currency", currency, maximumFractionDigits: 0 });
  const saved = plan.costNow - plan.expectedCost;
  return (
    <div className={css.plan}>
      <h3>{plan.first.do === "check" ? `Next: ${nameOf(plan.first.check.finding, edition)}` : "No further check pays: decide now"}</h3>
      <p className="small soft">
        Decided now: {inWords(plan.decisionNow, edition)}. That may be wrong, which is expected to cost {money.format(plan.costNow)}.
        {plan.first.do === "check" ? ` This plan is expected to save ${saved < 0.5 ? "less than one" : money.format(saved)} of it, its checks paid for.` : " Every check left costs more than it is expected to save."}
      </p>
      {plan.first.do === "check" ? (
        <details>
          <summary className="small">What then, answer by answer</summary>
          <Step step={plan.first} edition={edition} />
        </details>
      ) : null}
    </div>
  );
}

function Step({ step, edition }: { step: PlanStep & { do: "check" }; edition: Edition }) {
  const { check, together, canChange, branches } = step;
  const part = edition.findings.find(({ code }) => code === check.finding)?.part;
  return (
    <>
      <p className={css.planCheck}>
        {part ? <Balloon part={part} /> : null}
        <span>
          {nameOf(check.finding, edition)}
          <br />
          <span className="small soft">
            {OBSERVER_WORDS[check.observer]}, {check.minutes} min, {COST_WORDS[check.cost]}. {reasonOf(canChange, together, edition)}
          </span>
        </span>
      </p>
      <ul className={css.planBranches}>
        {branches.map((branch) => (
          <li key={branch.answer}>
            <Branch branch={branch} finding={check.finding} edition={edition} />
          </li>
        ))}
      </ul>
    </>
  );
}

function Branch({ branch: { answer, probability, next }, finding, edition }: { branch: PlanBranch; finding: string; edition: Edition }) {
  const label = edition.findings.find(({ code }) => code === finding)?.options.find(({ value }) => value === answer)?.label ?? (answer === "present" ? "Beyond its limit" : "Within its limit");
  return (
    <>
      {label} <span className="small soft">({probability < 0.01 ? "under 1" : Math.round(probability * 100)} %)</span>:{" "}
      {next.do === "decide" ? <strong>decide, {inWords(next.decision, edition)}</strong> : null}
      {next.do === "look again" ? `so far ${inWords(next.decision, edition)}` : null}
      {next.do === "check" ? (
        <>
          then
          <Step step={next} edition={edition} />
        </>
      ) : null}
    </>
  );
}

const nameOf = (finding: string, edition: Edition) => edition.findings.find(({ code }) => code === finding)?.name ?? finding;

function reasonOf(canChange: boolean, together: string | null, edition: Edition): string {
  if (together) return `It changes little by itself, but opens: ${nameOf(together, edition)}.`;
  return canChange ? "Its answer can change the decision." : "Its answer makes the decision surer.";
}

function inWords(decision: Decision, edition: Edition): string {
  if (decision.treatAs === "defective") return "the unit is held defective";
  const cause = edition.causes.find(({ code }) => code === decision.adviseOn);
  return cause ? `the unit is sound, advice on: ${cause.name}` : "the unit is sound";
}
