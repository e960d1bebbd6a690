import Link from "next/link";
import { BENCH_STEP_WORDS } from "@/lib/domain/claims/bench-steps";
import type { InspectionSheet, StepOnSheet } from "@/lib/operations/load-inspection";
import { finishHere } from "./actions";
import { keptInWords, moveInWords } from "./bench-words";
import { FinishForm } from "./finish-form";
import styles from "./inspection.module.css";

/** Every step with what is kept of it, and the end of the inspection for whoever is at it. */
export function Summary({ sheet: { unit, steps, open } }: { sheet: InspectionSheet }) {
  const undone = steps.filter(({ kept }) => kept === null || kept.isSkipped).length;
  return (
    <>
      <ol className={styles.summary}>
        {steps.map((one) => (
          <li key={one.step}>
            <h2>{open?.isMine ? <Link href={`/queue/${unit.claimId}/bench-inspection?step=${one.step}`}>{BENCH_STEP_WORDS[one.step].name}</Link> : BENCH_STEP_WORDS[one.step].name}</h2>
            <Kept one={one} />
          </li>
        ))}
      </ol>
      {open?.isMine ? (
        <section className="sheet no-print">
          <h2>{undone === 0 ? "Every step is done" : undone === 1 ? "One step is not done" : `${undone} steps are not done`}</h2>
          <FinishForm action={finishHere.bind(null, unit.claimId)} photosAt={`/queue/${unit.claimId}/`} />
        </section>
      ) : null}
    </>
  );
}

function Kept({ one: { kept, fields, photos } }: { one: StepOnSheet }) {
  const taken = photos.length > 0 ? <p className="small">{photos.length === 1 ? "One photo." : `${photos.length} photos.`}</p> : null;
  if (!kept || kept.isSkipped) {
    return (
      <>
        <p className="soft">{kept ? "Skipped." : "Not done yet."}</p>
        {taken}
      </>
    );
  }
  const answers = keptInWords(fields, kept.typed);
  const move = moveInWords(kept);
  return (
    <>
      <dl className={styles.answers}>
        {answers.map(({ question, answer }) => (
          <div key={question}>
            <dt className="small soft">{question}</dt>
            <dd>{answer}</dd>
          </div>
        ))}
      </dl>
      {answers.length === 0 ? <p className="soft">Nothing recorded.</p> : null}
      {taken}
      {move ? <p className="small">{move[0]?.toUpperCase() + move.slice(1)}.</p> : null}
    </>
  );
}
