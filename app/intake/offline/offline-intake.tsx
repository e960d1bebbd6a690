"use client";

import { type ReactNode, useEffect, useState } from "react";
import { changeComplaint, type KeptComplaint, keepAnswer, keptComplaint } from "@/app/_device/kept-on-device";
import { PhotoUploader } from "@/app/_device/photo-uploader";
import { sendComplaint } from "@/app/_device/send-complaint";
import type { FormState } from "@/app/_components/form-state";
import type { DrawnField } from "@/app/_components/question-field";
import { forgetTyped } from "@/app/_components/typed-copy";
import { useSay } from "@/app/_language/browser-words";
import type { Language } from "@/lib/domain/claims/languages";
import type { IntakeAnswers, Screen } from "@/lib/domain/intake/answers";
import type { IntakeScreen } from "@/lib/domain/intake/fields";
import { shownAnswers } from "@/lib/domain/intake/shown-answers";
import { standingPath } from "@/lib/domain/intake/standing-path";
import { type Say, sayFrom } from "@/lib/domain/say";
import { stringsOf } from "@/lib/inputs/form";
import type { OfflineIntake as Questions } from "@/lib/operations/load-offline-intake";
import { checkScreen } from "../check-screen";
import css from "../intake.module.css";
import { ScreenForm } from "../screen-form";

interface Props {
  intake: Questions;
  /** Drawings and cautions of each screen. */
  above: Readonly<Record<string, ReactNode>>;
  /** What is drawn with the fields of each screen. */
  drawn: Readonly<Record<string, Readonly<Record<string, DrawnField>>>>;
  /** The parts `offline` and `photos` of the message file. */
  texts: Readonly<Record<string, string>>;
  photoTexts: Readonly<Record<string, string>>;
  language: Language;
}

type Place = Screen | "review" | "sent";
type Kept = KeptComplaint | null | "looking" | "nothing-kept";

/** The intake on the device alone: every question in its standing order; what is answered is kept and sent later. */
export function OfflineIntake({ intake, above, drawn, texts, photoTexts, language }: Props) {
  const say = sayFrom(texts, language);
  const browserSay = useSay();
  const [kept, setKept] = useState<Kept>("looking");
  const [place, setPlace] = useState<Place | null>(null);

  useEffect(() => {
    const look = () =>
      keptComplaint().then(
        (now) => {
          setKept(now);
          setPlace(placeOf(now, intake));
          scrollTo(0, 0);
        },
        () => setKept("nothing-kept"),
      );
    void look();
    addEventListener("hashchange", look);
    return () => removeEventListener("hashchange", look);
  }, [intake]);

  if (kept === "looking" || kept === "nothing-kept" || place === null) {
    return (
      <>
        <h1>{say("offline.title")}</h1>
        <p role="status">{say(kept === "nothing-kept" ? "offline.nothingKept" : "offline.looking")}</p>
      </>
    );
  }
  if (place === "sent") {
    return (
      <div className="sheet" role="status">
        <h1>{say("offline.sentTitle")}</h1>
        <p>{say("offline.sentText")}</p>
      </div>
    );
  }
  const answers: IntakeAnswers = kept?.answers ?? {};
  const path = standingPath(answers, intake.asked);
  const described = (screen: Screen) => asAsked(screen, answers, intake);
  const lost = (
    <p className="note">
      {say("offline.kept")}{" "}
      <button type="button" className="link-button" onClick={goOnline}>
        {say("offline.back")}
      </button>
    </p>
  );
  if (place === "review") {
    return (
      <>
        {lost}
        <h1>{say("offline.review")}</h1>
        <p>{say("offline.notSent")}</p>
        {path.map((screen) => (
          <Answers key={screen} screen={screen} described={described(screen)} values={answers[screen] ?? {}} say={say} />
        ))}
        <div className="foot">
          <a className="button plain" href={`#${path.at(-1)}`}>
            {browserSay("browser.back")}
          </a>
          <button type="button" className="button" onClick={send}>
            {say("offline.send")}
          </button>
        </div>
      </>
    );
  }
  const reference = kept?.reference ?? null;
  const at = path.indexOf(place);
  const left = path.length - 1 - at;

  async function keep(_before: FormState, form: FormData): Promise<FormState> {
    const screen = place as Screen;
    const messages = checkScreen(described(screen).fields, form, browserSay);
    if (Object.keys(messages).length > 0) return { messages, values: stringsOf(form) };
    await keepAnswer(screen, stringsOf(form), reference, false);
    forgetTyped(`${reference ?? "new"}.${screen}`);
    const now = await keptComplaint();
    const next = standingPath(now?.answers ?? {}, intake.asked);
    location.hash = next[next.indexOf(screen) + 1] ?? "review";
    return { messages: {} };
  }

  return (
    <>
      {lost}
      <ScreenForm
        key={place}
        described={described(place)}
        values={answers[place] ?? {}}
        drawn={drawn[place] ?? {}}
        screen={place}
        reference={reference}
        action={keep}
        back={at > 0 ? `#${path[at - 1]}` : "/"}
        fromReview={false}
        progress={<span>{left === 0 ? say("offline.last") : say("offline.left", { count: left })}</span>}
      >
        {above[place]}
        {place === "pictures" ? (
          <>
            <p className="small">{say("offline.photosKept")}</p>
            <PhotoUploader address="/intake/photos" reference={reference} problem={null} attached={0} texts={photoTexts} language={language} />
          </>
        ) : null}
      </ScreenForm>
    </>
  );
}

/** The place that the address names, as far as one may be there: else the first that is open. */
function placeOf(kept: KeptComplaint | null, { asked }: Questions): Place {
  if (kept?.isSent) return "sent";
  const answers: IntakeAnswers = kept?.answers ?? {};
  const path = standingPath(answers, asked);
  const open = path.find((screen) => answers[screen] === undefined);
  const named = location.hash.slice(1);
  if (named === "review") return open ?? "review";
  const screen = path.find((one) => one === named);
  if (screen && (open === undefined || path.indexOf(screen) <= path.indexOf(open))) return screen;
  return open ?? "review";
}

/** A screen as it is put to this person; a date may name the device's own today at the latest. */
function asAsked(screen: Screen, answers: IntakeAnswers, { screens, pairs }: Questions): IntakeScreen {
  const known = screens.find((one) => one.screen === screen);
  if (!known) throw new Error(`asAsked needs a screen of the questions, not ${screen}`);
  const described = answers.who?.who === "technician" ? known.technician : known.owner;
  const today = new Date().toISOString().slice(0, 10);
  const pair = screen === "oil" ? pairs.find(({ kits, vehicles }) => kits.includes(answers.kit?.kit ?? "") && (vehicles === null || vehicles.includes(answers.vehicle?.vehicle ?? ""))) : null;
  return { ...described, fields: [...described.fields, ...(pair?.fields ?? [])].map((field) => (field.kind === "date" ? { ...field, latest: today } : field)) };
}

function Answers({ screen, described: { fields }, values, say }: { screen: Screen; described: IntakeScreen; values: Readonly<Record<string, string>>; say: Say }) {
  return (
    <dl className={css.answers}>
      {shownAnswers(fields, values).map(({ field, question, answer }, index) => (
        <div key={field}>
          <dt>{question}</dt>
          <dd>{answer ?? <span className="soft">{say("offline.notGiven")}</span>}</dd>
          {index === 0 ? (
            <dd className={css.change}>
              <a href={`#${screen}`}>
                {say("offline.change")}
                <span className="visually-hidden">: {question}</span>
              </a>
            </dd>
          ) : null}
        </div>
      ))}
    </dl>
  );
}

async function send(): Promise<void> {
  await changeComplaint((kept) => ({ ...kept, isSent: true }));
  const sent = await sendComplaint();
  if (sent.state === "filed") location.assign(`/claim/${sent.reference}`);
  else if (sent.state === "open") location.assign(sent.goTo);
  else location.hash = "sent";
}

/** Hands over what was answered, and goes on where questions are weighed. */
async function goOnline(): Promise<void> {
  const sent = await sendComplaint();
  if (sent.state !== "waits") location.assign("/intake");
}
