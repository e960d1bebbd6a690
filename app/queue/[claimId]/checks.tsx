import Link from "next/link";
import { Balloon } from "@/app/_components/balloon";
import { transition } from "@/lib/domain/claims/lifecycle";
import { may } from "@/lib/domain/claims/permissions";
import type { Role } from "@/lib/domain/claims/roles";
import { CHECK_NOTE_FIELDS } from "@/lib/inputs/check-request";
import type { PossibleCheck, StaffClaim } from "@/lib/operations/load-claim";
import { KeyHint } from "../keys";
import type { inZone } from "../times";
import { COST_WORDS } from "../words";
import { ActForm } from "./act-form";
import { CheckPlanTree } from "./check-plan";
import { ask, takeBack } from "./actions";
import css from "./claim.module.css";

/** What is asked for, and what is worth asking or measuring next. */
export function Checks({ claim, zone, role }: { claim: StaffClaim; zone: ReturnType<typeof inZone>; role: Role }) {
  const canAsk = may(role, "ask for a check") && transition(claim.stage, "ask_for_check").ok;
  const open = claim.asked.filter(({ state }) => state === "open");
  const closed = claim.asked.filter(({ state }) => state !== "open");
  const forCustomer = claim.checks.filter(({ isForCustomer, isAsked }) => isForCustomer && !isAsked);
  const forTechnician = claim.checks.filter(({ isForCustomer }) => !isForCustomer);
  if (open.length === 0 && closed.length === 0 && !transition(claim.stage, "decide").ok) return null;
  return (
    <section className="sheet" id="checks">
      <h2>{open.length > 0 ? (open.length === 1 ? "One check is asked for" : `${open.length} checks are asked for`) : "Next checks, best first"}</h2>
      {claim.plan ? <CheckPlanTree shown={claim.plan} /> : null}
      {open.length > 0 ? (
        <ul className={css.rows}>
          {open.map(({ id, name, part, askedBy, askedAt, note }) => (
            <li key={id}>
              <Balloon part={part} isHot />
              <span>
                {name}
                <br />
                <span className="small soft">
                  asked by {askedBy}, {zone.time(askedAt)}
                  {note ? (
                    <>
                      : <span lang={claim.customer?.language}>{note}</span>
                    </>
                  ) : null}
                </span>
              </span>
              {may(role, "ask for a check") ? <ActForm action={takeBack.bind(null, claim.id, id)} label="take back" of={name} isPlain className="no-print" /> : null}
            </li>
          ))}
        </ul>
      ) : null}
      {open.length > 0 && forCustomer.length > 0 ? <h3>Worth asking too</h3> : null}
      <ul className={css.rows}>
        {forCustomer.map((check, index) => (
          <li key={check.finding}>
            <Balloon part={check.part} />
            <CheckWords check={check} />
            {canAsk ? (
              <ActForm
                action={ask.bind(null, claim.id, check.finding)}
                label={
                  index === 0 ? (
                    <>
                      ask&nbsp;
                      <KeyHint sign="A" />
                    </>
                  ) : (
                    "ask"
                  )
                }
                of={`for: ${check.name}`}
                isPlain
                className="no-print"
                {...(index === 0 ? { sign: "a" } : {})}
              >
                <details className={`${css.aside} small`}>
                  <summary>with a word</summary>
                  {CHECK_NOTE_FIELDS.map((field) => (
                    <textarea key={field.name} name={field.name} lang={claim.customer?.language} aria-label={`${field.label}: ${check.name}`} rows={2} maxLength={4000} />
                  ))}
                </details>
              </ActForm>
            ) : null}
          </li>
        ))}
      </ul>
      {forCustomer.length === 0 && open.length === 0 ? <p>There is nothing left to ask the customer that would tell more.</p> : null}
      {forTechnician.length > 0 ? (
        <details>
          <summary>{forTechnician.length} that take a technician</summary>
          <ul className={css.rows}>
            {forTechnician.map((check) => (
              <li key={check.finding}>
                <Balloon part={check.part} />
                <CheckWords check={check} />
                <Link className="small" href={`/queue/${claim.id}?record=${check.finding}#record`}>
                  record<span className="visually-hidden"> {check.name}</span>
                </Link>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      {closed.length > 0 ? (
        <p className="small soft">Earlier: {closed.map(({ name, state }) => `${name} (${state === "answered" ? "answered" : "taken back"})`).join("; ")}.</p>
      ) : null}
    </section>
  );
}

function CheckWords({ check: { name, minutes, cost, tools } }: { check: PossibleCheck }) {
  return (
    <span>
      {name}
      <br />
      <span className="small soft">{[`${minutes} min`, COST_WORDS[cost], ...tools].join(", ")}</span>
    </span>
  );
}
