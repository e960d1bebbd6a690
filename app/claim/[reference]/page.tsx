import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Balloon } from "@/app/_components/balloon";
import { Caution } from "@/app/_components/caution";
import { Cautions } from "@/app/_components/cautions";
import { OilPath } from "@/app/_components/oil-path";
import { TitleBlock } from "@/app/_components/title-block";
import { requireCustomer } from "@/lib/access/customer";
import { transition } from "@/lib/domain/claims/lifecycle";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { MAKERS_DATA_COME_FIRST } from "@/lib/domain/diagnosis/cautions";
import { MESSAGE_FIELDS, OBJECTION_FIELDS } from "@/lib/inputs/customer";
import { loadMyClaim, type MyClaim } from "@/lib/operations/load-my-claim";
import { answerAskedCheck, appealMyVerdict, clearMyClaim, withdrawMyClaim, writeMessage } from "../actions";
import { AnswerForm } from "../answer-form";
import css from "../claim.module.css";
import { ClaimPhotos } from "../claim-photos";
import { EndForm } from "../end-form";
import { whatHappensNext } from "../what-happens-next";

export async function generateMetadata({ params }: { params: Promise<{ reference: string }> }): Promise<Metadata> {
  return { title: `Complaint ${(await params).reference}` };
}

const DONE: Readonly<Record<string, string>> = {
  message: "Your message is sent.",
  check: "Your answer is in. Thank you.",
  appeal: "We look at it again. Your reason stands among the messages.",
};

export default async function ClaimPage({ params, searchParams }: { params: Promise<{ reference: string }>; searchParams: Promise<{ done?: string; problem?: string }> }) {
  const [{ reference }, { done, problem }] = await Promise.all([params, searchParams]);
  const mine = await loadMyClaim(await requireCustomer(reference));
  if (!mine) notFound();
  const { claim, seller } = mine;
  const when = (date: Date) => new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short", timeZone: seller.timeZone }).format(date);
  const lastReturn = claim.returns[0];
  const { heading, next } = whatHappensNext(claim.stage, {
    promisedBy: claim.promisedAt ? when(claim.promisedAt) : "soon",
    openChecks: mine.asked.length,
    mergedInto: claim.mergedInto?.reference ?? null,
    isUnitHere: lastReturn?.state === "received" || lastReturn?.state === "on_the_bench",
  });
  const verdict = claim.verdicts[0];
  const isOpen = transition(claim.stage, "withdraw").ok;

  return (
    <main id="main" className={`page ${css.claim}`}>
      <div>
        {done ? (
          <p className="note" role="status">
            <strong>{DONE[done] ?? DONE.check}</strong>
          </p>
        ) : null}
        <h1>{heading}</h1>
        <p>{next}</p>
        <TitleBlock
          facts={[
            { name: "Reference", value: claim.reference },
            { name: "Stage", value: STAGE_NAMES[claim.stage] },
            ...(claim.filedAt ? [{ name: "Filed", value: when(claim.filedAt) }] : []),
            ...(isOpen && claim.promisedAt && !claim.firstAnswerAt ? [{ name: "Answer by", value: when(claim.promisedAt) }] : []),
            ...(claim.kitRevision ? [{ name: "Kit", value: `${claim.kitRevision.kit.code} ${claim.kitRevision.kit.name}` }] : []),
            ...(mine.vehicle ? [{ name: "Vehicle", value: mine.vehicle }] : []),
          ]}
        />
      </div>
      {isOpen && mine.stop ? <Caution title={mine.stop.title}>{mine.stop.sentence}</Caution> : null}
      <div className={css.columns}>
        <div>
          <AskedChecks mine={mine} />
          {mine.toSendIn ? (
            <section className="sheet">
              <h2>Please send us the unit: return {mine.toSendIn.number}</h2>
              {mine.toSendIn.instructions.map((paragraph) => (
                <p key={paragraph} className={css.letter}>
                  {paragraph}
                </p>
              ))}
            </section>
          ) : null}
          {verdict ? (
            <section className="sheet">
              <h2>Our letter</h2>
              <p className="small soft">{when(verdict.decidedAt)}</p>
              <div className={css.letter}>{verdict.letter}</div>
              {transition(claim.stage, "appeal").ok ? (
                <div className="no-print">
                  <h3>I see it otherwise</h3>
                  <p>Say why, and we look at it again. This letter then no longer holds, and another follows.</p>
                  {OBJECTION_FIELDS.map((field) => (
                    <AnswerForm key={field.name} field={field} action={appealMyVerdict.bind(null, claim.reference)} copyKey={`${claim.reference}.objection`} label="Ask for another look" />
                  ))}
                </div>
              ) : null}
            </section>
          ) : null}
          {isOpen ? <Advice mine={mine} /> : null}
          <section className="sheet" id="messages">
            <h2>Messages</h2>
            {claim.messages.length > 0 ? (
              <ul className={css.messages}>
                {claim.messages.map((message) => (
                  <li key={message.id} data-from={message.from}>
                    <span className="small soft">
                      {message.from === "staff" ? seller.name : "You"}, {when(message.createdAt)}
                    </span>
                    <p>{message.body}</p>
                  </li>
                ))}
              </ul>
            ) : null}
            {MESSAGE_FIELDS.map((field) => (
              <AnswerForm key={field.name} field={field} action={writeMessage.bind(null, claim.reference)} copyKey={`${claim.reference}.message`} label="Send" />
            ))}
            {seller.phone ? <p className={`small soft ${css.call}`}>Or call {seller.phone} and read out the reference.</p> : null}
          </section>
        </div>
        <div>
          <Told mine={mine} />
          <ClaimPhotos reference={claim.reference} photos={claim.photos} problem={problem} />
          {isOpen ? (
            <section className={`sheet no-print ${css.end}`}>
              <h2>Is it over?</h2>
              <details>
                <summary>A check put it right</summary>
                <p>Then nothing more is decided, and we learn from it. The complaint is closed.</p>
                <EndForm action={clearMyClaim.bind(null, claim.reference)} label="Yes, this put it right" />
              </details>
              <details>
                <summary>I take the complaint back</summary>
                <p>We stop and decide nothing. You can start another at any time.</p>
                <EndForm action={withdrawMyClaim.bind(null, claim.reference)} label="Yes, take it back" />
              </details>
            </section>
          ) : null}
        </div>
      </div>
    </main>
  );
}

function AskedChecks({ mine }: { mine: MyClaim }) {
  return mine.asked.map(({ id, note, field, part, cautions }) => (
    <section key={id} className="sheet">
      <h2>
        <Balloon part={part} isHot /> Please look at this
      </h2>
      {note ? <p>{note}</p> : null}
      <Cautions codes={cautions} />
      <AnswerForm field={field} action={answerAskedCheck.bind(null, mine.claim.reference, id)} copyKey={`${mine.claim.reference}.check.${id}`} label="Send my answer" {...(field.kind === "number" ? { cannotTell: "I can\u2019t tell" } : {})} />
    </section>
  ));
}

function Advice({ mine: { advice } }: { mine: MyClaim }) {
  if (!advice) return null;
  const cautions = [...new Set(advice.checks.flatMap((check) => check.cautions))].sort();
  return (
    <section className="sheet">
      <h2>{advice.account.headline}</h2>
      <p>{advice.account.sentence} This is a first estimate from what you told us; a person decides.</p>
      {advice.checks.length > 0 ? (
        <>
          <h3>Free to check now, the most telling first</h3>
          <Cautions codes={cautions} />
          <ol className={css.checks}>
            {advice.checks.map(({ finding, name, how, why, minutes, tools }) => (
              <li key={finding}>
                <div>
                  <h3>
                    {name} <span className="small soft num">{minutes} min</span>
                  </h3>
                  <p>{how}</p>
                  <p className="small soft">
                    {why}
                    {tools.length > 0 ? ` You need: ${tools.join(", ")}.` : ""}
                  </p>
                </div>
              </li>
            ))}
          </ol>
          <p className="small">Write to us below what you found, or send a photo.</p>
        </>
      ) : null}
      <p className="small soft">{MAKERS_DATA_COME_FIRST}</p>
    </section>
  );
}

function Told({ mine: { told, claim } }: { mine: MyClaim }) {
  const hot = [...new Set(told.flatMap(({ part, isSeen }) => (isSeen ? [part] : [])))];
  return (
    <section className="sheet">
      <h2>What you told us</h2>
      <OilPath id="told-oil-path" hot={hot} caption="The oil path with what you saw" />
      <dl className={css.told}>
        {told.map(({ code, part, question, answer, isSeen }) => (
          <div key={code}>
            <dt>
              <Balloon part={part} isHot={isSeen} /> {question}
            </dt>
            <dd>{answer}</dd>
          </div>
        ))}
      </dl>
      {claim.description ? (
        <>
          <h3>In your own words</h3>
          <p className={css.letter}>{claim.description}</p>
        </>
      ) : null}
    </section>
  );
}
