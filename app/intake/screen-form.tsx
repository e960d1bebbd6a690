"use client";

import { zodResolver } from "@hookform/resolvers/zod";
import Link from "next/link";
import { type FormEvent, type ReactNode, useEffect, useMemo, useRef } from "react";
import { useForm } from "react-hook-form";
import { ErrorSummary, type FieldError } from "@/app/_components/error-summary";
import { type FormState, UNTOUCHED } from "@/app/_components/form-state";
import { Problem } from "@/app/_components/problem";
import { fieldId, QuestionField } from "@/app/_components/question-field";
import { forgetTyped, keepTyped, readTyped } from "@/app/_components/typed-copy";
import { submitted, useSending } from "@/app/_components/use-sending";
import { type IntakeField, type IntakeScreen, isShown, unitField } from "@/lib/domain/intake/fields";
import { confirmField } from "@/lib/domain/intake/unusual-number";
import { type ScreenValues, screenSchema } from "@/lib/inputs/intake";
import css from "./intake.module.css";

interface Props {
  described: IntakeScreen;
  values: Readonly<Record<string, string>>;
  /** Names this draft's screen in the copy kept on the device. */
  copyKey: string;
  action: (before: FormState, form: FormData) => Promise<FormState>;
  /** Where Back leads. */
  back: string;
  fromReview: boolean;
  /** How many questions are left, above the heading. */
  progress: ReactNode;
  /** Cautions, the drawing, the photos: between the heading and the fields. */
  children: ReactNode;
}

const NOT_SAVED = "Not saved yet: there is no connection to us. What you typed is kept on this device; try again";

/**
 * One screen of the intake. A plain form that works without script; with it, messages come before the round trip, what
 * is typed is kept on the device, and a lost signal is told instead of losing the page.
 */
export function ScreenForm({ described, values, copyKey, action, back, fromReview, progress, children }: Props) {
  const { state, posted, postAction, isSending: isSaving, send, show } = useSending(action, NOT_SAVED, () => forgetTyped(copyKey));
  const form = useRef<HTMLFormElement>(null);
  const schema = useMemo(() => screenSchema(described.fields), [described.fields]);
  const typed = { ...values, ...posted.values };
  const { register, handleSubmit, setValue, getValues, formState } = useForm<ScreenValues>({
    // The tick at an unusual number is read from the page: it comes and goes with the number it is for.
    resolver: (held, context, options) => zodResolver(schema)({ ...held, ...ticks(described.fields, form.current) }, context, options),
    defaultValues: startValues(described.fields, typed),
    shouldFocusError: false,
  });

  useEffect(() => {
    for (const [name, value] of Object.entries(readTyped(copyKey))) setValue(name, value);
  }, [copyKey, setValue]);

  const held = { ...typed, ...getValues() };
  const messages: Record<string, string> = { ...state.messages };
  for (const [name, error] of Object.entries(formState.errors)) messages[name] = String(error?.message ?? "");
  // As a string, so that the summary takes the focus when the errors change and not with every key.
  const errorsNow = JSON.stringify(described.fields.flatMap((field) => (messages[field.name] ? [{ field: fieldId(field, held), message: messages[field.name] }] : [])));
  const errors = useMemo(() => JSON.parse(errorsNow) as FieldError[], [errorsNow]);

  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    // Read now: the button that was pressed may be gone once the form has been checked.
    const typedNow = submitted(event);
    const unanswered: FormState = state.offersToGoOn ? { messages: {}, offersToGoOn: true } : UNTOUCHED;
    show(unanswered);
    void handleSubmit(() => send(typedNow, unanswered))(event);
  }

  return (
    <>
      <title>{`${errors.length > 0 || state.problem ? "Error: " : ""}${described.title} - Fit or Fault`}</title>
      <Problem sentence={state.problem} />
      <ErrorSummary key={formState.submitCount} errors={errors} />
      <div className={css.progress}>{progress}</div>
      <h1>{described.title}</h1>
      {described.lead ? <p className="soft">{described.lead}</p> : null}
      {children}
      <form ref={form} action={postAction} onSubmit={submit} onInput={() => form.current && keepTyped(copyKey, form.current)} noValidate id="screen" className={css.form}>
        {fromReview ? <input type="hidden" name="from" value="review" /> : null}
        {described.fields.map((field) => (
          <QuestionField
            key={field.name}
            field={field}
            value={typed[field.name] ?? ""}
            unit={typed[unitField(field.name)] ?? ""}
            error={messages[field.name]}
            typed={held}
            isHeading={described.fields.filter((other) => isShown(other, {})).length === 1 && field.label === described.title}
            register={register}
          />
        ))}
        {state.offersToGoOn ? (
          <p>
            <button type="submit" name="goesOnWithout" value="yes" className="button plain">
              Go on and pick the kit
            </button>
          </p>
        ) : null}
        <div className="foot">
          <Link className="button plain" href={back}>
            Back
          </Link>
          <button type="submit" className="button" aria-disabled={isSaving}>
            {isSaving ? "Saving" : "Continue"}
          </button>
        </div>
      </form>
    </>
  );
}

/** The ticks that stand in the form, by name. */
function ticks(fields: readonly IntakeField[], form: HTMLFormElement | null): ScreenValues {
  const sent = form ? new FormData(form) : null;
  return Object.fromEntries(fields.flatMap(({ name, kind }) => (kind === "number" ? [[confirmField(name), String(sent?.get(confirmField(name)) ?? "")]] : [])));
}

/** Every field by name, the unit of a number set to its first. */
function startValues(fields: readonly IntakeField[], typed: Readonly<Record<string, string>>): ScreenValues {
  return Object.fromEntries(
    fields.flatMap((field) => {
      const own = [field.name, typed[field.name] ?? ""];
      return field.kind === "number" ? [own, [unitField(field.name), typed[unitField(field.name)] || (field.units[0]?.value ?? "")]] : [own];
    }),
  );
}
