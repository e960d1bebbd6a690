"use client";

import { useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { ALLOWED_FITTERS, LOSS_GROUNDS, LOSS_GROUNDS_KNOWN, PERIOD_STARTS, type TermsDocument } from "@/lib/domain/warranty/terms";
import { changeDraft } from "../actions";
import { FITTER_WORDS, START_WORDS } from "../terms-words";
import styles from "../warranty.module.css";

/** Rows that stay free for another kit or country. */
const FREE_ROWS = 2;

interface Props {
  draft: { number: number; seen: string; validFrom: string; change: string; document: TermsDocument };
  kits: readonly { code: string; name: string }[];
}

/** A draft of the terms as it is typed; keeping it gives two more free rows. */
export function DraftForm({ draft, kits }: Props) {
  const [{ values, messages, problem, lostBy }, send, isSending] = useActionState(changeDraft, { values: {}, messages: {}, lostBy: null });
  const { document } = draft;
  const typed: Readonly<Record<string, string>> = { ...stored(draft), ...(values as Record<string, string>) };
  const errors = useMemo(() => Object.entries(messages).map(([field, message]) => ({ field: GROUPS[field] ?? field, message: message ?? "" })), [messages]);
  const ticked = new Set<string>(lostBy ?? document.lostBy);
  const text = (id: string, label: string, hint?: string, type = "text") => (
    <Field id={id} label={label} hint={hint} error={messages[id]}>
      <input {...describedBy(id, { hint: hint !== undefined, error: messages[id] })} name={id} type={type} autoComplete="off" defaultValue={typed[id] ?? ""} key={typed[id]} />
    </Field>
  );
  const lines = (id: string, label: string, hint?: string) => (
    <Field id={id} label={label} hint={hint} error={messages[id]}>
      <textarea {...describedBy(id, { hint: hint !== undefined, error: messages[id] })} name={id} rows={3} defaultValue={typed[id] ?? ""} key={typed[id]} />
    </Field>
  );
  const choice = (id: string, label: string, options: readonly (readonly [value: string, words: string])[]) => (
    <Field id={id} label={label} error={messages[id]}>
      <select {...describedBy(id, { error: messages[id] })} name={id} defaultValue={typed[id] ?? ""} key={typed[id]}>
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  );
  const rows = (count: number) => Array.from({ length: count + FREE_ROWS }, (_, row) => row);
  const fitters = ALLOWED_FITTERS.map((fitter) => [fitter, FITTER_WORDS[fitter]] as const);

  return (
    <form action={send} noValidate className={styles.draft}>
      <Problem sentence={problem} />
      <ErrorSummary errors={errors} />
      <input type="hidden" name="number" value={draft.number} />
      <input type="hidden" name="seen" value={typed.seen ?? draft.seen} />
      <section className="sheet">
        <h2>For whom they hold</h2>
        {text("validFrom", "Units shipped from this day on", "What has shipped before keeps the terms it shipped under", "date")}
        {lines("change", "What is new in these terms")}
      </section>
      <section className="sheet">
        <h2>How long, and fitted by whom</h2>
        <div className={styles.pair}>
          {text("months", "Months")}
          {choice(
            "from",
            "They run from",
            PERIOD_STARTS.map((start) => [start, START_WORDS[start]] as const),
          )}
          {text("distanceKm", "Or km, whichever is first", "Empty sets no bound")}
          {text("hours", "Or hours run", "Empty sets no bound")}
        </div>
        {choice("fitter", "It may be fitted by", fitters)}
      </section>
      <section className="sheet">
        <fieldset>
          <legend>What it is lost by</legend>
          <p className="small soft">Those with a cause are shown by a verdict, or by a ranking as likely; the others a person has to see. Nobody has to show that one is not there.</p>
          <div className={styles.ticks} key={[...ticked].join()}>
            {LOSS_GROUNDS.map((ground) => (
              <label key={ground}>
                <input type="checkbox" name="lostBy" value={ground} defaultChecked={ticked.has(ground)} />
                <span>
                  {LOSS_GROUNDS_KNOWN[ground].words} <span className="small soft">{LOSS_GROUNDS_KNOWN[ground].causes.join(", ")}</span>
                </span>
              </label>
            ))}
          </div>
        </fieldset>
      </section>
      <section className="sheet">
        <h2>Kits with terms of their own</h2>
        <p className="small soft">What is left empty is as for the rest. Two rows stay free; keeping the draft gives more.</p>
        {rows(document.kits.length).map((row) => (
          <fieldset key={row} className={styles.row}>
            <legend className="visually-hidden">Kit {row + 1}</legend>
            <div className={styles.pair}>
              {choice(`kit-${row}-kit`, "Kit", [["", "none"], ...kits.map(({ code, name }) => [code, name] as const)])}
              {text(`kit-${row}-months`, "Months")}
              {text(`kit-${row}-distanceKm`, "km")}
              {text(`kit-${row}-hours`, "Hours run")}
              {choice(`kit-${row}-fitter`, "Fitted by", [["", "as the rest"], ...fitters])}
            </div>
          </fieldset>
        ))}
      </section>
      <section className="sheet">
        <h2>Notes for countries</h2>
        <p className="small soft">Shown on claims from there, beside the outcome: what the law there gives a consumer, in the words of somebody who knows it.</p>
        {rows(document.countries.length).map((row) => (
          <fieldset key={row} className={styles.row}>
            <legend className="visually-hidden">Country {row + 1}</legend>
            {text(`country-${row}-country`, "Country, two letters")}
            {lines(`country-${row}-note`, "Note")}
          </fieldset>
        ))}
      </section>
      <div className="acts">
        <button type="submit" name="act" value="keep" className="button" aria-disabled={isSending}>
          Keep the draft
        </button>
        <button type="submit" name="act" value="in-force" className="button plain" aria-disabled={isSending}>
          Put it in force
        </button>
      </div>
      <details>
        <summary>Throw the draft away</summary>
        <button type="submit" name="act" value="drop" className="button plain tight" aria-disabled={isSending}>
          Throw it away
        </button>
      </details>
    </form>
  );
}

/** Where a message leads that is about a group of fields. */
const GROUPS: Readonly<Record<string, string>> = { kits: "kit-0-kit", countries: "country-0-country" };

/** The draft as it is kept, field by field. */
function stored({ validFrom, change, document: { period, fitter, kits, countries } }: Props["draft"]): Record<string, string> {
  const shown = (value: number | null) => (value === null ? "" : String(value));
  return {
    validFrom,
    change,
    from: period.from,
    months: shown(period.months),
    distanceKm: shown(period.distanceKm),
    hours: shown(period.hours),
    fitter,
    ...Object.fromEntries(kits.flatMap((own, row) => [[`kit-${row}-kit`, own.kit], [`kit-${row}-months`, shown(own.months)], [`kit-${row}-distanceKm`, shown(own.distanceKm)], [`kit-${row}-hours`, shown(own.hours)], [`kit-${row}-fitter`, own.fitter ?? ""]])),
    ...Object.fromEntries(countries.flatMap(({ country, note }, row) => [[`country-${row}-country`, country], [`country-${row}-note`, note]])),
  };
}
