"use client";

import type { ReactNode } from "react";
import { useSay } from "@/app/_language/browser-words";
import { type IntakeField, unitField } from "@/lib/domain/intake/fields";
import { confirmField, type TypedValues, unusualNumber } from "@/lib/domain/intake/unusual-number";
import { Balloon } from "./balloon";
import { describedBy, Field } from "./field";
import css from "./question-field.module.css";

/** What is drawn with a question, and help to measure it: made on the server, shown as it is. */
export interface DrawnField {
  asked: ReactNode;
  /** By the option's value. */
  options: Readonly<Record<string, ReactNode>>;
  help: ReactNode;
}

interface Props {
  field: IntakeField;
  value: string;
  unit: string;
  error: string | undefined;
  /** What the form holds, or came back with: an unusual number is asked about. */
  typed?: TypedValues;
  /** The heading of the page says the question already. */
  isHeading: boolean;
  drawn?: DrawnField | undefined;
}

/** Where an error leads: the control, the first choice, or the tick at an unusual number. */
export function fieldId(field: IntakeField, typed: TypedValues = {}): string {
  if (field.kind === "choice") return `${field.name}-0`;
  return unusualNumber(field, typed)?.isPossible ? confirmField(field.name) : field.name;
}

/** One question of a form: a plain control that works without script. */
export function QuestionField({ field, value, unit, error, typed = {}, isHeading, drawn }: Props) {
  const say = useSay();
  const when = field.shownWhen ? { "data-when": field.shownWhen.field } : {};
  if (field.kind === "choice") {
    return (
      <fieldset {...when} {...(error ? { "aria-describedby": `${field.name}-error` } : {})}>
        <legend className={isHeading ? "visually-hidden" : ""}>{field.label}</legend>
        <Reason field={field} />
        {drawn?.asked}
        {error ? (
          <span className="error" id={`${field.name}-error`}>
            {error}
          </span>
        ) : null}
        <ul className="choices">
          {field.options.map((option, index) => (
            <li key={option.value}>
              <label>
                <input type="radio" id={`${field.name}-${index}`} value={option.value} defaultChecked={value === option.value} name={field.name} />
                <span>
                  {option.parts?.map((part) => (
                    <span key={part}>
                      <Balloon part={part} name={say(`browser.parts.${part}`)} />{" "}
                    </span>
                  ))}
                  {option.label}
                  {option.detail ? (
                    <>
                      <br />
                      <span className="small soft">{option.detail}</span>
                    </>
                  ) : null}
                  {drawn?.options[option.value]}
                </span>
              </label>
            </li>
          ))}
        </ul>
      </fieldset>
    );
  }
  const tied = describedBy(field.name, { error });
  return (
    <div {...when}>
      <Field id={field.name} label={isHeading ? <span className="visually-hidden">{field.label}</span> : field.label}>
        <Reason field={field} />
        {drawn?.asked}
        {error ? (
          <span className="error" id={`${field.name}-error`}>
            {error}
          </span>
        ) : null}
        <Control field={field} value={value} unit={unit} tied={tied} />
        <Confirmation field={field} typed={typed} error={error} />
        {drawn?.help}
      </Field>
    </div>
  );
}

/** The tick that an unusual number is right; it stands there only for one, and holds for no other. */
function Confirmation({ field, typed, error }: { field: IntakeField; typed: TypedValues; error: string | undefined }) {
  const say = useSay();
  const unusual = unusualNumber(field, typed);
  if (!unusual?.isPossible) return null;
  const name = confirmField(field.name);
  return (
    <p className={css.confirmation}>
      <input type="checkbox" key={unusual.typed} id={name} name={name} value={unusual.typed} defaultChecked={unusual.isConfirmed} {...(error ? { "aria-describedby": `${field.name}-error` } : {})} />
      <label htmlFor={name}>{say("browser.confirm", { typed: unusual.typed })}</label>
    </p>
  );
}

function Reason({ field: { hint, how } }: { field: IntakeField }) {
  const say = useSay();
  return (
    <>
      {hint ? <p className={`small soft ${css.why}`}>{hint}</p> : null}
      {how ? (
        <details className={css.how}>
          <summary>{say("browser.howToLook")}</summary>
          <p>{how}</p>
        </details>
      ) : null}
    </>
  );
}

function Control({ field, value, unit, tied }: { field: Exclude<IntakeField, { kind: "choice" }>; value: string; unit: string; tied: object }) {
  const say = useSay();
  switch (field.kind) {
    case "select":
      return (
        <select name={field.name} {...tied} defaultValue={value}>
          <option value="">{say("browser.choose")}</option>
          {field.options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      );
    case "text":
      return field.lines ? (
        <textarea name={field.name} {...tied} rows={field.lines} defaultValue={value} />
      ) : (
        <input
          name={field.name}
          {...tied}
          defaultValue={value}
          autoComplete={field.autoComplete ?? "off"}
          {...(field.signs === "code" ? { autoCapitalize: "characters", spellCheck: false } : {})}
        />
      );
    case "email":
      // Not type=email: browsers would refuse in their own words, and hide what was typed from us.
      return <input name={field.name} {...tied} defaultValue={value} inputMode="email" autoComplete="email" autoCapitalize="off" spellCheck={false} />;
    case "phone":
      return <input type="tel" name={field.name} {...tied} defaultValue={value} autoComplete="tel" />;
    case "date":
      return <input type="date" name={field.name} {...tied} defaultValue={value} max={field.latest} />;
    case "number":
      return (
        <span className={css.measure}>
          <input name={field.name} {...tied} defaultValue={value} inputMode="decimal" autoComplete="off" />
          {field.units.length > 1 ? (
            <select name={unitField(field.name)} defaultValue={unit || field.units[0]?.value} aria-label={say("browser.unitOf", { question: field.question ?? field.label })}>
              {field.units.map((known) => (
                <option key={known.value} value={known.value}>
                  {known.label}
                </option>
              ))}
            </select>
          ) : (
            <span className="num">{field.units[0]?.label}</span>
          )}
        </span>
      );
  }
}
