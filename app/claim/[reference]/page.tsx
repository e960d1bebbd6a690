import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Balloon } from "@/app/_components/balloon";
import { Caution } from "@/app/_components/caution";
import { OilPath } from "@/app/_components/oil-path";
import { TitleBlock } from "@/app/_components/title-block";
import { requireCustomer } from "@/lib/access/customer";
import { currentWords } from "@/lib/access/language";
import { transition } from "@/lib/domain/claims/lifecycle";
import { serialsOfPair } from "@/lib/domain/claims/pair-units";
import { isAwaited } from "@/lib/domain/claims/return-lifecycle";
import { messageFields, objectionFields } from "@/lib/inputs/customer";
import { dayInWords, momentInWords } from "@/lib/messages/dates";
import { sayIn, wordsIn } from "@/lib/messages/words";
import { loadMyClaim, type MyClaim } from "@/lib/operations/load-my-claim";
import { loadMyReturn } from "@/lib/operations/load-my-return";
import { appealMyVerdict, clearMyClaim, withdrawMyClaim, writeMessage } from "../actions";
import { Advice } from "../advice";
import { AnswerForm } from "../answer-form";
import { AskedChecks } from "../asked-checks";
import css from "../claim.module.css";
import { ClaimPhotos } from "../claim-photos";
import { EndForm } from "../end-form";
import { Letter } from "../letter";
import { ReturnPart } from "../return-part";
import { LetterPhotos } from "../letter-photos";
import { whatHappensNext } from "../what-happens-next";

export async function generateMetadata({ params }: { params: Promise<{ reference: string }> }): Promise<Metadata> {
  const words = await currentWords();
  return { title: words("claim.title", { reference: (await params).reference }) };
}

const DONE = ["message", "check", "appeal"] as const;

export default async function ClaimPage({ params, searchParams }: { params: Promise<{ reference: string }>; searchParams: Promise<{ done?: string; problem?: string }> }) {
  const [{ reference }, { done, problem }] = await Promise.all([params, searchParams]);
  const actor = await requireCustomer(reference);
  const [mine, returned] = await Promise.all([loadMyClaim(actor), loadMyReturn(actor)]);
  if (!mine) notFound();
  const { claim, seller } = mine;
  const words = wordsIn(claim.language);
  const say = sayIn(claim.language);
  const when = (date: Date) => momentInWords(date, claim.language, seller.timeZone);
  const now = new Date();
  const verdict = claim.verdicts[0];
  const { heading, byWhen, next } = whatHappensNext(
    claim.stage,
    {
      answer: claim.promisedAt && !claim.firstAnswerAt ? { by: when(claim.promisedAt), isLate: claim.promisedAt < now } : null,
      isContested: claim.isContested,
      hasChecks: (mine.advice?.checks.length ?? 0) > 0,
      openChecks: mine.asked.length,
      remedy: verdict?.remedy ?? null,
      unit: { sendBy: returned?.sendBy ?? "", place: !returned || isAwaited(returned.state) ? (returned?.state === "in_carriage" ? "on_its_way" : "awaited") : "here" },
      mergedInto: claim.mergedInto?.reference ?? null,
    },
    words,
  );
  const isOpen = transition(claim.stage, "withdraw").ok;
  // One thing is asked at a time: while it is the unit, the checks on the vehicle are folded away.
  const isUnitAsked = claim.stage === "awaiting_the_unit" && mine.advice !== null;

  return (
    <main id="main" className={`page ${css.claim}`}>
      <div className={css.standing}>
        {done ? (
          <p className="note" role="status">
            <strong>{words(`claim.done.${DONE.find((known) => known === done) ?? "check"}`)}</strong>
          </p>
        ) : null}
        <h1>{heading}</h1>
        <p>
          {byWhen ? <strong>{byWhen}</strong> : null} {next}
        </p>
        {claim.stage === "awaiting_checks" && claim.lapsesAt ? <p className="note">{words("claim.lapse.on", { day: dayInWords(claim.lapsesAt, claim.language, seller.timeZone) })}</p> : null}
        {isOpen && mine.stop ? <Caution title={mine.stop.title}>{mine.stop.sentence}</Caution> : null}
        <TitleBlock
          facts={[
            { name: words("claim.facts.reference"), value: claim.reference },
            { name: words("claim.facts.stage"), value: words(`claim.stages.${claim.stage}`) },
            ...(claim.filedAt ? [{ name: words("claim.facts.filed"), value: when(claim.filedAt) }] : []),
            ...(claim.contactEmail ? [{ name: words("claim.facts.email"), value: claim.contactEmail }] : []),
            ...(claim.kitRevision ? [{ name: words("claim.facts.kit"), value: `${claim.kitRevision.kit.code} ${claim.kitRevision.kit.name}` }] : []),
            ...(mine.vehicle ? [{ name: words("claim.facts.vehicle"), value: mine.vehicle }] : []),
            ...(claim.pairUnit ? [{ name: words("claim.facts.pair"), value: [words(`intake.pair.${claim.pairUnit}`), ...serialsOfPair(claim)].join(", ") }] : []),
          ]}
        />
      </div>
      <div className={css.columns}>
        <div>
          <AskedChecks mine={mine} />
          {returned ? <ReturnPart reference={claim.reference} returned={returned} words={words} say={say} /> : null}
          {verdict ? (
            <section className="sheet">
              <h2>{words("claim.letter.heading")}</h2>
              <p className="small soft">{when(verdict.decidedAt)}</p>
              <Letter text={verdict.letter} />
              <LetterPhotos reference={claim.reference} photos={verdict.letterPhotos} words={words} />
              <p className="no-print">
                <a href={`/claim/${claim.reference}/letter`}>{words("claim.letter.file")}</a>
              </p>
              {transition(claim.stage, "appeal").ok ? (
                <div className="no-print">
                  <h3>{words("claim.objection.heading")}</h3>
                  <p>{words("claim.objection.text")}</p>
                  {objectionFields(say).map((field) => (
                    <AnswerForm key={field.name} field={field} action={appealMyVerdict.bind(null, claim.reference)} copyKey={`${claim.reference}.objection`} label={words("claim.objection.ask")} />
                  ))}
                </div>
              ) : null}
            </section>
          ) : null}
          {isOpen && isUnitAsked ? (
            <details className={css.fold}>
              <summary>{words("claim.advice.meanwhile")}</summary>
              <Advice mine={mine} />
            </details>
          ) : null}
          {isOpen && !isUnitAsked ? <Advice mine={mine} /> : null}
          <section className="sheet" id="messages">
            <h2>{words("claim.messages.heading")}</h2>
            {claim.messages.length > 0 ? (
              <ul className={css.messages}>
                {claim.messages.map((message) => (
                  <li key={message.id} data-from={message.from}>
                    <span className="small soft">
                      {words("claim.messages.from", { who: message.from === "staff" ? seller.name : words("claim.messages.you"), when: when(message.createdAt) })}
                    </span>
                    <p>{message.body}</p>
                  </li>
                ))}
              </ul>
            ) : null}
            {messageFields(say).map((field) => (
              <AnswerForm key={field.name} field={field} action={writeMessage.bind(null, claim.reference)} copyKey={`${claim.reference}.message`} label={words("claim.messages.send")} />
            ))}
            {seller.phone ? <p className={`small soft ${css.call}`}>{words("claim.messages.call", { phone: seller.phone })}</p> : null}
          </section>
        </div>
        <div>
          <ClaimPhotos reference={claim.reference} photos={claim.photos} problem={problem} />
          <Told mine={mine} />
          {isOpen ? (
            <section className={`sheet no-print ${css.end}`}>
              <h2>{words("claim.end.heading")}</h2>
              <details>
                <summary>{words("claim.end.cleared.heading")}</summary>
                <p>{words("claim.end.cleared.text")}</p>
                <EndForm action={clearMyClaim.bind(null, claim.reference, null)} label={words("claim.end.cleared.yes")} />
              </details>
              <details>
                <summary>{words("claim.end.withdrawn.heading")}</summary>
                <p>{words("claim.end.withdrawn.text")}</p>
                <EndForm action={withdrawMyClaim.bind(null, claim.reference)} label={words("claim.end.withdrawn.yes")} />
              </details>
            </section>
          ) : null}
        </div>
      </div>
    </main>
  );
}

function Told({ mine: { told, claim } }: { mine: MyClaim }) {
  const words = wordsIn(claim.language);
  const say = sayIn(claim.language);
  const hot = [...new Set(told.flatMap(({ part, isSeen }) => (isSeen ? [part] : [])))];
  return (
    <section className="sheet">
      <h2>{words("claim.told.heading")}</h2>
      <OilPath id="told-oil-path" hot={hot} caption={words("claim.told.caption")} say={say} />
      <dl className={css.told}>
        {told.map(({ code, part, question, answer, isSeen }) => (
          <div key={code}>
            <dt>
              <Balloon part={part} isHot={isSeen} name={say(`browser.parts.${part}`)} /> {question}
            </dt>
            <dd>{answer}</dd>
          </div>
        ))}
      </dl>
      {claim.description ? (
        <>
          <h3>{words("claim.told.ownWords")}</h3>
          <p className={css.letter}>{claim.description}</p>
        </>
      ) : null}
    </section>
  );
}
