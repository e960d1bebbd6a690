import { isNotExplained } from "@/lib/domain/diagnosis/account";
import { changeInWords, conflictInWords, contradictionInWords, fullAccount, openInWords } from "@/lib/domain/diagnosis/full-account";
import { percent } from "@/app/_components/scale";
import type { StaffClaim } from "@/lib/operations/load-claim";
import css from "./claim.module.css";

/** What is doubtful about the ranking as a whole: findings that exclude each other, do not fit, or are not explained. */
export function Doubts({ claim: { kept, explanation, edition } }: { claim: StaffClaim }) {
  if (!kept || !explanation) return null;
  const { conflicts, contradiction } = explanation;
  const { ranking } = kept;
  return (
    <>
      {contradiction ? <p className="note">{contradictionInWords(contradiction, edition)}</p> : null}
      {conflicts.length > 0 ? (
        <div className="note">
          <p>
            <strong>{conflicts.length === 1 ? "One finding does not fit" : `${conflicts.length} findings do not fit`} and should be looked at again.</strong>
          </p>
          <ul className={css.doubts}>
            {conflicts.map((conflict) => (
              <li key={conflict.step.finding}>{conflictInWords(conflict, edition)}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {ranking.outcome === "ranked" && isNotExplained(ranking) ? (
        <p className="note">
          <strong>Not explained: {percent(ranking.notExplained)}.</strong> With that chance none of the causes known here is there: something was overlooked, or it is one that no edition names yet.
        </p>
      ) : null}
    </>
  );
}

/** What the ranking hangs on, and the whole of it in words. */
export function HangsOn({ claim: { kept, explanation, edition } }: { claim: StaffClaim }) {
  if (kept?.ranking.outcome !== "ranked" || !explanation) return null;
  const { change, open } = explanation;
  return (
    <section className="sheet">
      <h2>{change ? `${change.answers.length === 1 ? "One other answer" : "Two other answers"} would change who leads` : "Who leads does not hang on one answer"}</h2>
      <p>{changeInWords(change, edition)}</p>
      <p>
        <strong>Still open:</strong> {openInWords(open, edition)}
      </p>
      <details>
        <summary className="small">The ranking in words</summary>
        <dl className={`${css.facts} ${css.inWords}`}>
          {fullAccount(kept.ranking, explanation, open, edition).map(({ name, text }) => (
            <div key={name} className={css.fact}>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      </details>
    </section>
  );
}
