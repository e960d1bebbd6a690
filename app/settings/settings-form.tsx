"use client";

import { useActionState, useMemo } from "react";
import { UNTOUCHED } from "@/app/_desk/form-state";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { WEEKDAYS } from "@/lib/domain/claims/weekdays";
import { Problem } from "@/app/_components/problem";
import { changeSettingsHere } from "./actions";
import styles from "./settings.module.css";

/** The settings as they stand, each as it is typed. */
export function SettingsForm({ settings }: { settings: Readonly<Record<string, string>> }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(changeSettingsHere, UNTOUCHED);
  const typed = { ...settings, ...values };
  const errors = useMemo(() => Object.entries(messages).map(([field, message]) => ({ field: field === "workingDays" ? "day-1" : field, message: message ?? "" })), [messages]);
  const days = new Set(typed.workingDays?.split(" "));
  const text = (id: string, label: string, hint?: string, type = "text") => (
    <Field id={id} label={label} hint={hint} error={messages[id]}>
      <input {...describedBy(id, { hint: hint !== undefined, error: messages[id] })} name={id} type={type} autoComplete="off" defaultValue={typed[id]} key={typed[id]} />
    </Field>
  );
  return (
    <form action={send} noValidate>
      <Problem sentence={problem} />
      <ErrorSummary errors={errors} />
      <input type="hidden" name="seen" value={typed.seen} />
      <div className={styles.sheets}>
        <section className="sheet">
          <h2>Who you are to a customer</h2>
          {text("name", "Name")}
          <Field id="returnAddress" label="Address for returns" hint="As it is printed on the parcel" error={messages.returnAddress}>
            <textarea {...describedBy("returnAddress", { hint: true, error: messages.returnAddress })} name="returnAddress" rows={4} defaultValue={typed.returnAddress} key={typed.returnAddress} />
          </Field>
          {text("email", "E-mail address", undefined, "email")}
          {text("phone", "Telephone", "Left empty, none is shown", "tel")}
        </section>
        <section className="sheet">
          <h2>When you answer</h2>
          <fieldset {...(messages.workingDays ? { "aria-describedby": "workingDays-error" } : {})}>
            <legend>Working days</legend>
            {messages.workingDays ? (
              <span className="error" id="workingDays-error">
                {messages.workingDays}
              </span>
            ) : null}
            <div className={styles.days} key={typed.workingDays}>
              {WEEKDAYS.map((day, index) => (
                <label key={day}>
                  <input type="checkbox" id={`day-${index + 1}`} name="workingDays" value={index + 1} defaultChecked={days.has(String(index + 1))} /> {day}
                </label>
              ))}
            </div>
          </fieldset>
          <div className={styles.pair}>
            {text("opensAt", "From", undefined, "time")}
            {text("closesAt", "To", undefined, "time")}
          </div>
          {text("timeZone", "Time zone", "As Europe/Berlin")}
          {text("promisedAnswerHours", "First answer within, in working hours", "Promised to every customer who files")}
        </section>
        <section className="sheet">
          <h2>When a check stays unanswered</h2>
          <p className="small soft">In days since it was asked, or since the customer was last heard. Any word of theirs starts it anew; an answer after the end opens the claim again.</p>
          <div className={styles.pair}>
            {text("firstReminderDays", "First reminder after")}
            {text("secondReminderDays", "Second reminder after")}
            {text("lapseNoticeDays", "Notice of the end after")}
            {text("lapseDays", "The claim lapses after")}
          </div>
        </section>
        <section className="sheet">
          <h2>Returns and money</h2>
          {text("returnWithinDays", "A unit is to be here within, in days")}
          {text("currency", "Currency", "As EUR; what is booked keeps the currency it was booked in")}
        </section>
        <section className="sheet">
          <h2>What a remedy costs</h2>
          <p className="small soft">In {typed.currency}. Shown beside a verdict with what is expected to follow. A turbo model may say its own cost.</p>
          <div className={styles.pair}>
            {text("unitCost", "Another unit", "As you get it, where its model says no other")}
            {text("unitPrice", "What a customer paid for one", "For a refund")}
            {text("repairCost", "A repair of the unit")}
            {text("partCost", "A part sent", "As a gasket set or a drain line")}
            {text("carriageCost", "Carriage, one way")}
            {text("goodwillCost", "A usual courtesy")}
          </div>
          {text("secondPersonAbove", "A second person above", "A verdict that costs you more than this waits until somebody else has looked at it; so does one that declines against the ranking. 0 asks for a second person whenever anything is paid")}
        </section>
        <section className="sheet">
          <h2>How you watch yourselves</h2>
          {text("secondOpinionShare", "Claims for a second opinion, per cent", "Of the decided ones, put to somebody who has seen neither ranking nor verdict. 0 asks for none")}
        </section>
        <section className="sheet">
          <h2>What a wrong decision costs</h2>
          <p className="small soft">
            In {typed.currency}, all told. A check is advised while it is expected to save more of these than it costs, so they decide how long anybody goes on looking. They never move a probability.
          </p>
          {text("needlessReturnCost", "A needless return", "The unit was treated as defective and is not: carriage, bench, a replacement for nothing")}
          {text("missedDefectCost", "A missed defect", "The unit was treated as sound and is defective: a second repair, damage, the customer")}
          {text("wrongAdviceCost", "Advice on the wrong cause", "Another round of looking, writing and taking apart")}
        </section>
        <section className="sheet">
          <h2>What a check costs</h2>
          <p className="small soft">In {typed.currency}. A check costs its minutes, what it takes in parts and hire, and its risk.</p>
          <div className={styles.pair}>
            {text("customerMinute", "A customer\u2019s minute", "How little you like to ask of them")}
            {text("technicianMinute", "A technician\u2019s minute", "As a garage charges it")}
            {text("benchMinute", "A minute at your bench")}
            {text("cautionCost", "Each caution", "The risk: hot parts, a lifted vehicle, a running engine")}
            {text("lowCheck", "Parts of a low-cost check", "As a gasket")}
            {text("middleCheck", "Of one at middle cost", "As a tester for a day")}
            {text("highCheck", "Of one at high cost", "As a run on the rig")}
          </div>
        </section>
      </div>
      <button type="submit" className="button" aria-disabled={isSending}>
        Keep these settings
      </button>
    </form>
  );
}
