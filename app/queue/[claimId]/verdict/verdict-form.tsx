"use client";

import { useActionState, useMemo, useState } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import type { Language } from "@/lib/domain/claims/languages";
import { REMEDIES, type Remedy } from "@/lib/domain/claims/remedies";
import { SECOND_PERSON_WORDS } from "@/lib/domain/claims/second-person";
import { VERDICT_BASES, type VerdictBasis } from "@/lib/domain/claims/verdict";
import { ORIGINS } from "@/lib/domain/diagnosis/attributions";
import { KeyHint } from "../../keys";
import { BASIS_WORDS, ORIGIN_WORDS, REMEDY_WORDS } from "../../words";
import css from "../claim.module.css";
import sheet from "../verdict.module.css";
import type { VerdictFormState } from "./form-state";

interface Props {
  action: (before: VerdictFormState, form: FormData) => Promise<VerdictFormState>;
  /** Most probable first. */
  causes: readonly { code: string; name: string; liesWith: string; percent: string | null }[];
  proposed: { primaryCause: string | null; contributingCauses: readonly string[]; basis: VerdictBasis };
  /** The remedy the ranking speaks for, and the currency of what is promised. */
  remedy: Remedy | null;
  currency: string;
  photos: readonly { id: string; words: string }[];
  claimId: string;
  /** What the customer reads; unknown to whoever may not see the customer. */
  language: Language | undefined;
  /** The letter answers what was said against the last verdict. */
  answersObjection: boolean;
  version: number;
  rankingId: string | null;
}

const OTHER_FIELDS = { decidesAllTheSame: "decides" } as const;

/** The verdict: the leader proposed, the letter read before it goes out. */
export function VerdictForm({ action, causes, proposed, remedy, currency, photos, claimId, language, answersObjection, version, rankingId }: Props) {
  const [state, send, isSending] = useActionState(action, { values: {}, messages: {}, contributing: null, letterPhotos: null });
  const { messages, values, letter, grounds = [] } = state;
  const errors = useMemo(
    () => [
      ...(state.problem ? [{ field: "main", message: state.problem }] : []),
      ...Object.entries(messages).map(([field, message = ""]) => ({ field: field in OTHER_FIELDS ? OTHER_FIELDS[field as keyof typeof OTHER_FIELDS] : field, message })),
    ],
    [state.problem, messages],
  );
  const [primary, setPrimary] = useState(values.primaryCause ?? proposed.primaryCause ?? "");
  const contributing = state.contributing ?? proposed.contributingCauses;
  const choice = (name: "primaryCause" | "origin" | "basis" | "remedy", label: string, options: readonly { value: string; words: string }[], usual: string, hint?: string, onChoose?: (value: string) => void) => (
    <Field id={name} label={SIGNS[name] ? <>{label} <KeyHint sign={SIGNS[name]} /></> : label} error={messages[name]} hint={hint}>
      <select {...describedBy(name, { hint: Boolean(hint), error: messages[name] })} name={name} defaultValue={values[name] ?? usual} data-key={SIGNS[name]?.toLowerCase()} {...(onChoose ? { onChange: ({ target }) => onChoose(target.value) } : {})}>
        <option value="">choose</option>
        {options.map(({ value, words }) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  );
  const text = (name: "promised" | "sellerPercent" | "coreDeposit", label: string, hint: string, usual: string) => (
    <Field id={name} label={label} hint={hint} error={messages[name]}>
      <input {...describedBy(name, { hint: true, error: messages[name] })} name={name} inputMode="decimal" autoComplete="off" defaultValue={values[name] ?? usual} />
    </Field>
  );
  const ticks = (some: Props["causes"]) =>
    some.filter(({ code }) => code !== primary).map(({ code, name }) => (
      <label key={code} className={css.tick}>
        <input type="checkbox" name="contributingCauses" value={code} defaultChecked={contributing.includes(code)} />
        {name}
      </label>
    ));

  return (
    // Filled in anew from what came back: a sent form is emptied.
    <form action={send} key={JSON.stringify([values, state.contributing, state.letterPhotos])} noValidate>
      {errors.length > 0 ? <title>Error: verdict - Fit or Fault</title> : null}
      <ErrorSummary errors={errors} />
      {letter ? <input type="hidden" name="letterSeen" value={letter.fingerprint} /> : null}
      <input type="hidden" name="version" value={values.version ?? version} />
      <input type="hidden" name="rankingId" value={values.rankingId ?? rankingId ?? ""} />
      {choice(
        "primaryCause",
        "Primary cause",
        causes.map(({ code, name, liesWith, percent }) => ({ value: code, words: `${name} (${[liesWith, percent].filter(Boolean).join(", ")})` })),
        proposed.primaryCause ?? "",
        "The ranking\u2019s order. Another than the first overrules it, and needs a reason.",
        setPrimary,
      )}
      {choice(
        "origin",
        "Where it lies",
        ORIGINS.map((origin) => ({ value: origin, words: ORIGIN_WORDS[origin] })),
        "",
        "Only for drain, vent, feed, filter and level, which may be the fitting or the kit: it decides the attribution. Else it is left out.",
      )}
      <fieldset id="contributingCauses" {...(messages.contributingCauses ? { "aria-describedby": "contributingCauses-error" } : {})}>
        <legend>Contributing causes</legend>
        {messages.contributingCauses ? (
          <span className="error" id="contributingCauses-error">
            {messages.contributingCauses}
          </span>
        ) : null}
        <div className={css.ticks}>{ticks(causes.slice(0, LIKELY))}</div>
        <details open={causes.slice(LIKELY).some(({ code }) => contributing.includes(code))}>
          <summary className="small">less likely ones</summary>
          <div className={css.ticks}>{ticks(causes.slice(LIKELY))}</div>
        </details>
      </fieldset>
      <div className={css.pair}>
        {choice(
          "basis",
          "It rests on",
          VERDICT_BASES.map((basis) => ({ value: basis, words: BASIS_WORDS[basis] })),
          proposed.basis,
        )}
        {choice(
          "remedy",
          "What is done",
          REMEDIES.map((each) => ({ value: each, words: REMEDY_WORDS[each] })),
          remedy ?? "",
        )}
      </div>
      <details className={sheet.more} open={["promised", "sellerPercent", "coreDeposit", "letterPhotos"].some((name) => messages[name] || (values[name] && values[name] !== "100")) || Boolean(values.paysCarriage)}>
        <summary>Sums, shares, deposit and photos for the letter</summary>
        <div className={sheet.sums}>
          {text("promised", `What it comes to, in ${currency}`, "Of a refund or a courtesy; it stands in the letter, and is what is booked. Empty names no sum.", "")}
          {text("sellerPercent", "Of it we bear, per cent", "The customer bears the rest.", "100")}
          {text("coreDeposit", `Deposit for the old part, in ${currency}`, "Held with a replacement until the old unit is back complete. Empty holds nothing.", "")}
        </div>
        <label className={css.tick}>
          <input type="checkbox" name="paysCarriage" value="yes" defaultChecked={values.paysCarriage === "yes"} />
          We pay for sending the old unit to us
        </label>
        {photos.length > 0 ? (
          <fieldset id="letterPhotos" {...(messages.letterPhotos ? { "aria-describedby": "letterPhotos-error" } : {})}>
            <legend>Photos that go with the letter</legend>
            {messages.letterPhotos ? (
              <span className="error" id="letterPhotos-error">
                {messages.letterPhotos}
              </span>
            ) : null}
            <div className={sheet.photos}>
              {photos.map(({ id, words }) => (
                <label key={id}>
                  <img src={`/queue/${claimId}/photos/${id}?size=small`} alt={words} loading="lazy" />
                  <span>
                    <input type="checkbox" name="letterPhotos" value={id} defaultChecked={state.letterPhotos?.includes(id) ?? false} /> <span className="small">{words}</span>
                  </span>
                </label>
              ))}
            </div>
          </fieldset>
        ) : null}
      </details>
      {messages.decidesAllTheSame || values.decidesAllTheSame ? (
        <fieldset aria-describedby="decides-error">
          <legend>Drain or crankcase not looked at</legend>
          {messages.decidesAllTheSame ? (
            <span className="error" id="decides-error">
              {messages.decidesAllTheSame}
            </span>
          ) : null}
          <label className={css.tick}>
            <input type="checkbox" id="decides" name="decidesAllTheSame" value="yes" defaultChecked={values.decidesAllTheSame === "yes"} />I have looked at this and decide it all the same
          </label>
        </fieldset>
      ) : null}
      <Field id="explanation" label={answersObjection ? "Answer to the objection, in the letter" : "Explanation, in the letter"} hint={answersObjection ? "In words for the customer: what was said against the last verdict stands above it." : "In words for the customer, below what the verdict means. Needed where nothing is done."} error={messages.explanation}>
        <textarea {...describedBy("explanation", { hint: true, error: messages.explanation })} name="explanation" lang={language} rows={3} defaultValue={values.explanation ?? ""} />
      </Field>
      <Field id="reason" label="Reason" hint="For the file, not for the customer. Needed where you overrule." error={messages.reason}>
        <textarea {...describedBy("reason", { hint: true, error: messages.reason })} name="reason" rows={3} defaultValue={values.reason ?? ""} />
      </Field>
      {letter ? (
        <section className="sheet" aria-labelledby="letter-heading">
          <h2 id="letter-heading" tabIndex={-1} ref={focusOn}>{grounds.length > 0 ? "This letter goes out once a second person has approved it" : "This letter goes out"}</h2>
          {grounds.length > 0 ? <p className="note">A second person looks at it first: {grounds.map((ground) => SECOND_PERSON_WORDS[ground]).join("; ")}. The customer hears nothing before.</p> : null}
          <div className={css.letter} lang={language}>
            {letter.text}
          </div>
          {letter.inEnglish ? (
            <details>
              <summary>The same in English, for you</summary>
              <div className={css.letter}>{letter.inEnglish}</div>
            </details>
          ) : null}
        </section>
      ) : null}
      <div className="acts">
        {letter ? (
          <button type="submit" name="act" value="confirm" className="button" aria-disabled={isSending} data-key="c">
            {grounds.length > 0 ? "Put it before a second person" : "Confirm and send it"}&nbsp;
            <KeyHint sign="C" />
          </button>
        ) : null}
        <button type="submit" name="act" value="preview" className={letter ? "button plain" : "button"} aria-disabled={isSending} data-key="l">
          {letter ? "Preview it again" : "Preview the letter"}&nbsp;
          <KeyHint sign="L" />
        </button>
      </div>
    </form>
  );
}

/** The keys that lead to a choice. */
const SIGNS: Readonly<Record<string, string>> = { primaryCause: "P", origin: "O", remedy: "W" };

/** The letter has come: whoever reads by ear or works by keys goes on there. */
const focusOn = (heading: HTMLElement | null) => heading?.focus();

/** So many stand open among the contributing causes; the rest are folded away. */
const LIKELY = 6;
