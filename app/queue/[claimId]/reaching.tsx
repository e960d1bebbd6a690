import type { StaffActor } from "@/lib/access/actors";
import type { Language } from "@/lib/domain/claims/languages";
import { may } from "@/lib/domain/claims/permissions";
import { loadQuietState } from "@/lib/operations/load-quiet-state";
import { loadBounce } from "@/lib/operations/note-bounce";
import { inZone } from "../times";
import { ActForm } from "./act-form";
import css from "./reaching.module.css";
import { hold, reached, remind } from "./reaching-actions";

/** Whether the customer is reached: mail that came back, checks that stay unanswered and when that ends the claim. */
export async function Reaching({ actor, claimId, language }: { actor: StaffActor; claimId: string; language: Language | undefined }) {
  const [bounced, waiting] = await Promise.all([loadBounce(actor, claimId), loadQuietState(actor, claimId)]);
  const bounce = bounced.ok ? bounced.bounce : null;
  const quiet = waiting.ok ? waiting.quiet : null;
  if (!waiting.ok || (!bounce && !quiet)) return null;
  const { time, day } = inZone(waiting.timeZone);
  return (
    <div className={`note ${css.reaching}`}>
      {bounce ? (
        <>
          <p>
            <strong>Mail did not reach the customer: call.</strong> &ldquo;<span lang={language}>{bounce.subject}</span>{`\u201d came back ${time(bounce.at)}${bounce.address ? ` from ${bounce.address}` : ""}${bounce.reason ? `: ${bounce.reason}` : ""}.`}
          </p>
          {may(actor.role, "write a message") ? <ActForm action={reached.bind(null, claimId)} label="I have reached them" isPlain className="no-print" /> : null}
        </>
      ) : null}
      {quiet ? (
        <>
          <p>{quietInWords(quiet, quiet.lapsesAt && day(quiet.lapsesAt))}</p>
          {may(actor.role, "ask for a check") ? (
            <div className={`${css.acts} no-print`}>
              {quiet.hasMail && !quiet.isHeld ? <ActForm action={remind.bind(null, claimId)} label="Remind now" isPlain /> : null}
              <ActForm action={hold.bind(null, claimId, !quiet.isHeld)} label={quiet.isHeld ? "Let reminders go on" : "Hold it: no reminders, no end"} isPlain />
            </div>
          ) : null}
        </>
      ) : null}
    </div>
  );
}

function quietInWords({ steps, isHeld, hasMail }: { steps: number; isHeld: boolean; hasMail: boolean }, lapsesOn: string | null): string {
  if (isHeld) return "Held: nobody is reminded, and the claim does not lapse.";
  if (!hasMail) return "There is no e-mail address to remind at: call. Without one the claim does not lapse.";
  if (lapsesOn) return `Reminded twice and given notice: without an answer the claim lapses on ${lapsesOn}.`;
  return steps === 0 ? "Waits for the customer; nobody has been reminded yet." : `Waits for the customer, reminded ${steps === 1 ? "once" : "twice"}.`;
}
