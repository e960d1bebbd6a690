"use client";

import Link from "next/link";
import { type FormEvent, type ReactNode, useEffect, useMemo, useRef, useState } from "react";
import { ErrorSummary, type FieldError } from "@/app/_components/error-summary";
import { type FormState, UNTOUCHED } from "@/app/_components/form-state";
import { Problem } from "@/app/_components/problem";
import { type DrawnField, fieldId, QuestionField } from "@/app/_components/question-field";
import { forgetTyped, keepTyped, restoreTyped } from "@/app/_components/typed-copy";
import { submitted, useSending } from "@/app/_components/use-sending";
import { useSay } from "@/app/_language/browser-words";
import type { Screen } from "@/lib/domain/intake/answers";
import { type IntakeScreen, unitField } from "@/lib/domain/intake/fields";
import { stringsOf } from "@/lib/inputs/form";
import css from "./intake.module.css";

interface Props {
  described: IntakeScreen;
  values: Readonly<Record<string, string>>;
  /** What is drawn with each field, by its name. */
  drawn: Readonly<Record<string, DrawnField>>;
  screen: Screen;
  /** Of the draft; null before there is one. */
  reference: string | null;
  action: (before: FormState, form: FormData) => Promise<FormState>;
  /** Where Back leads. */
  back: string;
  fromReview: boolean;
  /** How many questions are left, above the heading. */
  progress: ReactNode;
  /** Cautions, the drawing, the photos: between the heading and the fields. */
  children: ReactNode;
}

/**
 * One screen of the intake. A plain form that works without script; with it, messages come before the round trip, what
 * is typed is kept on the device, and a lost signal is told instead of losing the page.
 */
export function ScreenForm({ screen, reference, described, values, drawn, action, back, fromReview, progress, children }: Props) {
  const say = useSay();
  /** Names this draft's screen in the copy of what is being typed. */
  const copyKey = `${reference ?? "new"}.${screen}`;
  const [canGoOnOffline, setCanGoOnOffline] = useState(false);
  const { state, posted, postAction, isSending: isSaving, send, show } = useSending(
    action,
    say("browser.lost.answer"),
    (saved) => {
      forgetTyped(copyKey);
      void keepOnDevice(screen, saved, reference, true);
    },
    (lost) => void keepOnDevice(screen, lost, reference, false).then((isKept) => setCanGoOnOffline(isKept && Boolean(navigator.serviceWorker?.controller))),
  );
  const form = useRef<HTMLFormElement>(null);
  const typed = { ...values, ...posted.values };
  /** What our own look at the form found last, and in what was typed then. */
  const [checked, setChecked] = useState<Checked>(UNCHECKED);

  useEffect(() => {
    if (form.current) restoreTyped(copyKey, form.current);
  }, [copyKey]);

  const held = { ...typed, ...checked.values };
  const messages: Readonly<Record<string, string>> = { ...state.messages, ...checked.messages };
  // As a string, so that the summary takes the focus when the errors change and not with every key.
  const errorsNow = JSON.stringify(described.fields.flatMap((field) => (messages[field.name] ? [{ field: fieldId(field, held), message: messages[field.name] }] : [])));
  const errors = useMemo(() => JSON.parse(errorsNow) as FieldError[], [errorsNow]);

  async function check(typedNow: FormData, times: number): Promise<boolean> {
    const checkScreen = await Promise.race([theCheck().catch(() => null), nothingSoon()]);
    const found = checkScreen ? checkScreen(described.fields, typedNow, say) : {};
    setChecked({ times, values: stringsOf(typedNow), messages: found });
    return Object.keys(found).length === 0;
  }

  async function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    // Read now: the button that was pressed may be gone once the form has been checked.
    const typedNow = submitted(event);
    const unanswered: FormState = state.offersToGoOn ? { messages: {}, offersToGoOn: true } : UNTOUCHED;
    show(unanswered);
    await drawnOnce();
    if (await check(typedNow, checked.times + 1)) send(typedNow, unanswered);
  }

  function input() {
    if (!form.current) return;
    keepTyped(copyKey, form.current);
    // Once something was refused, what is right now is said as it is typed.
    if (Object.keys(checked.messages).length > 0) void check(new FormData(form.current), checked.times);
  }

  return (
    <>
      <title>{`${errors.length > 0 || state.problem ? say("browser.errorTitle", { title: described.title }) : described.title} - Fit or Fault`}</title>
      <Problem sentence={state.problem} />
      {state.problem && canGoOnOffline ? (
        <p>
          <a className="button plain" href="/intake/offline">
            {say("browser.goOnOffline")}
          </a>
        </p>
      ) : null}
      <ErrorSummary key={checked.times} errors={errors} />
      <div className={css.progress}>{progress}</div>
      <h1>{described.title}</h1>
      {described.lead ? <p className="soft">{described.lead}</p> : null}
      {children}
      <form ref={form} action={postAction} onSubmit={submit} onInput={input} onFocus={() => void theCheck().catch(() => {})} noValidate id="screen" className={css.form}>
        {fromReview ? <input type="hidden" name="from" value="review" /> : null}
        {described.fields.map((field) => (
          <QuestionField
            key={field.name}
            field={field}
            value={typed[field.name] ?? ""}
            unit={typed[unitField(field.name)] ?? ""}
            error={messages[field.name]}
            typed={held}
            isHeading={field.label === described.title}
            drawn={drawn[field.name]}
          />
        ))}
        {state.offersToGoOn ? (
          <p>
            <button type="submit" name="goesOnWithout" value="yes" className="button plain">
              {say("browser.goOnWithout")}
            </button>
          </p>
        ) : null}
        <div className="foot">
          {back.startsWith("#") ? (
            <a className="button plain" href={back}>
              {say("browser.back")}
            </a>
          ) : (
            <Link className="button plain" href={back}>
              {say("browser.back")}
            </Link>
          )}
          <button type="submit" className="button" aria-disabled={isSaving}>
            {isSaving ? say("browser.saving") : say("browser.goOn")}
          </button>
        </div>
      </form>
    </>
  );
}

interface Checked {
  /** How often the form was sent. */
  times: number;
  values: Readonly<Record<string, string>>;
  messages: Readonly<Record<string, string>>;
}

const UNCHECKED: Checked = { times: 0, values: {}, messages: {} };

/** The schema comes with the first tap: what shows first does not wait for it. */
const theCheck = () => import("./check-screen").then(({ checkScreen }) => checkScreen);

const LONGEST_WAIT_MS = 100;

/** The tap is answered on the screen before the work begins; a page out of sight draws nothing, and then a moment is enough. */
const drawnOnce = () => new Promise<void>((resolve) => { requestAnimationFrame(() => setTimeout(resolve)); setTimeout(resolve, LONGEST_WAIT_MS); });

/** Whoever goes on before the schema is there hardly waits for it: the server looks at all of it again anyway. */
const nothingSoon = () => new Promise<null>((resolve) => setTimeout(resolve, LONGEST_WAIT_MS, null));

/** Keeps an answer on the device; false where the browser keeps nothing. */
async function keepOnDevice(screen: Screen, form: FormData, reference: string | null, hasReachedUs: boolean): Promise<boolean> {
  try {
    const { keepAnswer } = await import("@/app/_device/kept-on-device");
    await keepAnswer(screen, stringsOf(form), reference, hasReachedUs);
    return true;
  } catch {
    return false;
  }
}
