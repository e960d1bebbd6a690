import { Cautions } from "@/app/_components/cautions";
import type { DrawnField } from "@/app/_components/question-field";
import type { FormState } from "@/app/_components/form-state";
import { drawnFields } from "@/app/_drawings/drawn-fields";
import { AnswerForm } from "@/app/claim/answer-form";
import { EndForm } from "@/app/claim/end-form";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import { sayIn, type Words } from "@/lib/messages/words";
import type { IntakeField } from "@/lib/domain/intake/fields";
import type { AdvisedField } from "@/lib/operations/advised-field";
import css from "./advised-checks.module.css";

type Act = (before: FormState, form: FormData) => Promise<FormState>;

interface Props {
  /** One below the heading that stands over the list. */
  heading: "h2" | "h4";
  checks: readonly AdvisedField[];
  units: UnitSystem;
  words: Words;
  /** Names the complaint in the copies kept on the device. */
  reference: string;
  /** Keeps what a check has found. */
  tell: (finding: string) => Act;
  /** A check has put it right: it is over. */
  clear: (finding: string) => Act;
}

/** What is free to check, the most telling first: how, with its drawing and its cautions, and a place to tell what it found. */
export function AdvisedChecks({ heading: Heading, checks, units, words, reference, tell, clear }: Props) {
  const say = sayIn(words.language);
  return (
    <ol className={css.checks}>
      {checks.map(({ finding, name, how, why, minutes, tools, cautions, field }, place) => {
        const drawn = drawnFields([field], units, words)[field.name];
        return (
          <li key={finding} id={finding}>
            {/* One check at a time: the others are a tap away. */}
            <details open={place === 0}>
              <summary>
                <Heading>
                  {name} <span className="small soft num">{words("claim.advice.minutes", { minutes })}</span>
                </Heading>
              </summary>
              <Cautions codes={cautions} say={say} />
              {drawn ? <CheckDrawing field={field} drawn={drawn} /> : null}
              <p>{how}</p>
              <p className="small soft">
                {why}
                {tools.length > 0 ? ` ${words("claim.advice.tools", { tools: tools.join(", ") })}` : ""}
              </p>
              <details className="no-print">
                <summary>{words("claim.advice.did")}</summary>
                <AnswerForm
                  field={field}
                  drawn={drawn && { ...drawn, asked: null }}
                  action={tell(finding)}
                  copyKey={`${reference}.advised.${finding}`}
                  label={words("claim.advice.keep")}
                />
              </details>
              {cautions.length + tools.length > 0 ? (
                // What is only remembered puts nothing right.
                <details className="no-print">
                  <summary>{words("claim.advice.right")}</summary>
                  <p>{words("claim.advice.over")}</p>
                  <EndForm action={clear(finding)} label={words("claim.end.cleared.yes")} />
                </details>
              ) : null}
            </details>
          </li>
        );
      })}
    </ol>
  );
}

/** Where to look, or what can be found there, each by its name. */
function CheckDrawing({ field, drawn: { asked, options } }: { field: IntakeField; drawn: DrawnField }) {
  if (asked || field.kind !== "choice") return asked;
  const shown = field.options.filter(({ value }) => options[value]);
  if (shown.length === 0) return null;
  return (
    <ul className={css.outcomes}>
      {shown.map(({ value, label }) => (
        <li key={value}>
          {options[value]}
          {label}
        </li>
      ))}
    </ul>
  );
}
