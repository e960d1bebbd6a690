import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { inZone } from "@/app/queue/times";
import { requireStaff } from "@/lib/access/staff";
import { type LearningSheet, loadLearning } from "@/lib/operations/load-learning";
import type { NothingLearned } from "@/lib/operations/learn-edition";
import { askToLearnHere } from "./actions";
import css from "./learning.module.css";
import { ProposalSection } from "./proposal-section";
import { ShownSection } from "./shown-section";
import { CONFIRMED_BY, outcomeOf, WHY_NOTHING } from "./words";

export const metadata: Metadata = { title: "Learning" };

export default async function LearningPage() {
  const actor = await requireStaff("/knowledge/learning");
  const sheet = await loadLearning(actor);
  if (!sheet.ok) forbidden();
  const { time } = inZone(sheet.timeZone);
  return (
    <DeskShell actor={actor} here="Knowledge">
      <h1>{headline(sheet)}</h1>
      <p className={css.reading}>
        <Link href="/knowledge">All editions</Link>. Confirmed verdicts propose; a person promotes an edition or does not, and nothing changes until then.
      </p>
      <div className={css.sheets}>
        <Verdicts sheet={sheet} time={time} />
        {sheet.proposal ? <ProposalSection proposal={sheet.proposal} time={time} /> : null}
        <ShownSection shown={sheet.shown} edition={sheet.inForce} />
      </div>
    </DeskShell>
  );
}

function headline({ proposal, kinds }: LearningSheet): string {
  const verdicts = kinds.reduce((sum, kind) => sum + kind.verdicts, 0);
  if (!proposal) return `${verdicts === 1 ? "One verdict" : `${verdicts} verdicts`} to learn from, and nothing learned yet`;
  const [first] = proposal.report.views;
  return `Edition ${proposal.edition.number}, learned from verdicts${proposal.state === "in force" ? " and in force" : ""}, ${first ? outcomeOf(first) : "was not scored"}`;
}

/** What there is to learn from, and the act. */
function Verdicts({ sheet: { kinds, mayLearn, lastAct }, time }: { sheet: LearningSheet; time: (at: Date) => string }) {
  const sorted = kinds.toSorted((a, b) => b.verdicts - a.verdicts);
  const [most] = sorted;
  const total = kinds.reduce((sum, { verdicts }) => sum + verdicts, 0);
  return (
    <section className="sheet" aria-labelledby="verdicts">
      <h2 id="verdicts">{most && total > 0 ? `${most.verdicts} of ${total} verdicts rest on: ${CONFIRMED_BY[most.confirmation].toLowerCase()}` : "No verdict has been confirmed yet"}</h2>
      <div className={css.pair}>
        <table className={css.figures}>
          <thead>
            <tr>
              <th scope="col">Confirmed by</th>
              <th scope="col" className="num">
                Verdicts
              </th>
              <th scope="col" className="num">
                Each counts
              </th>
            </tr>
          </thead>
          <tbody>
            {kinds.map(({ confirmation, verdicts, weight }) => (
              <tr key={confirmation}>
                <th scope="row">{CONFIRMED_BY[confirmation]}</th>
                <td className="num">{verdicts}</td>
                <td className="num">{weight}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <div>
          <p>
            The bench strips the unit and counts whole. Staff see the ranking before they judge, and may lean on it, so that nothing short of the bench counts more than 0.6. A verdict that was taken back teaches nothing, nor does a unit that was
            replaced without another complaint.
          </p>
          {lastAct ? <p>{lastActInWords(lastAct, time)}</p> : null}
          {mayLearn ? (
            <form action={askToLearnHere} className="no-print">
              <button type="submit" className="button tight">
                Learn from the verdicts and propose an edition
              </button>
            </form>
          ) : null}
        </div>
      </div>
    </section>
  );
}

function lastActInWords({ action, at, by, detail }: NonNullable<LearningSheet["lastAct"]>, time: (at: Date) => string): string {
  if (action === "ask_to_learn") return `${by ?? "Somebody"} asked for it ${time(at)}. The worker is at it: load the page again in a moment.`;
  if (action === "learn_nothing") return `Nothing was proposed ${time(at)}. ${WHY_NOTHING[detail.why as NothingLearned] ?? ""}`;
  return `Edition ${String(detail.edition)} was proposed ${time(at)}.`;
}
