import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { Caution } from "@/app/_components/caution";
import { OilPath } from "@/app/_components/oil-path";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { otherSerialInWords } from "@/app/returns/return-words";
import type { StaffActor } from "@/lib/access/actors";
import { requireStaff } from "@/lib/access/staff";
import { may } from "@/lib/domain/claims/permissions";
import { isLate } from "@/lib/domain/claims/queue-order";
import { QUEUE_STAGES, STAGE_NAMES } from "@/lib/domain/claims/stages";
import { isContested } from "@/lib/domain/claims/verdict";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { RankedCause } from "@/lib/domain/diagnosis/ranking";
import { STAFF_MESSAGE_FIELDS } from "@/lib/inputs/staff-message";
import { loadClaim, type StaffClaim } from "@/lib/operations/load-claim";
import { loadReturnsOfClaim } from "@/lib/operations/load-returns";
import { KeyHint, Keys } from "../keys";
import { inZone } from "../times";
import { OBSERVER_WORDS, REMEDY_WORDS } from "../words";
import { ActForm } from "./act-form";
import { rankAgain, setAside, take, write } from "./actions";
import { inspectionCopyKey } from "./bench-inspection/copy-key";
import { ForgetTyped } from "./bench-inspection/forget-typed";
import { Causes, Evidence, Shares } from "./causes";
import { Doubts, HangsOn } from "./causes-account";
import { Checks } from "./checks";
import css from "./claim.module.css";
import { doneInWords } from "./done";
import { Findings, Photos } from "./findings";
import { ReturnSection } from "./return-section";
import { SecondOpinion } from "./second-opinion";
import { SettlementSection } from "./settlement-section";
import { Story } from "./story";
import { nameOf, VerdictPanel } from "./verdict-panel";

export const metadata: Metadata = { title: "Claim" };

type Zone = ReturnType<typeof inZone>;
type Query = Readonly<Partial<Record<"cause" | "record" | "done", string>>>;

/** From here on the leader's balloon is filled: there the blame lies. */
const WORTH_MARKING = 0.2;

export default async function ClaimPage({ params, searchParams }: { params: Promise<{ claimId: string }>; searchParams: Promise<Query> }) {
  const [{ claimId }, query] = await Promise.all([params, searchParams]);
  if (!z.guid().safeParse(claimId).success) notFound();
  const actor = await requireStaff(`/queue/${claimId}`);
  const claim = await loadClaim(actor, claimId);
  if (!claim.ok) return claim.reason === "not-allowed" ? forbidden() : notFound();
  const returned = await loadReturnsOfClaim(actor, claimId);
  const otherUnits = returned.ok ? returned.returns.filter(({ serialMatch }) => serialMatch === "differs") : [];
  const zone = inZone(claim.timeZone);
  const ranking = claim.kept?.ranking.outcome === "ranked" ? claim.kept.ranking : null;
  const selected = ranking?.causes.find(({ code }) => code === query.cause) ?? ranking?.causes[0];
  const done = doneInWords(query.done);
  const { reference, account, stop } = claim;
  const standing = claim.verdicts.find(({ supersededAt }) => supersededAt === null);

  return (
    <DeskShell actor={actor} here="Queue">
      <title>{`Claim ${reference} - Fit or Fault`}</title>
      <Crumbs claim={claim} role={actor.role} />
      {done ? (
        <p className="note" role="status">
          <strong>{done}</strong>
        </p>
      ) : null}
      {query.done === "inspected" ? <ForgetTyped copyKey={inspectionCopyKey(claim.id)} /> : null}
      <TitleBlock facts={titleFacts(claim, zone)} />
      <div className={css.finding}>
        <h1>{standing ? `Decided: ${lowerFirst(nameOf(standing.primaryCause, claim.edition))}; ${REMEDY_WORDS[standing.remedy]}` : (account?.headline ?? "Nothing has been ranked yet")}</h1>
        <p className="soft">
          {account ? `${standing ? `The ranking: ${account.headline}. ` : ""}${account.sentence} ` : ""}
          {claim.kept ? `Edition ${claim.kept.ranking.edition}, ranked ${zone.time(claim.kept.createdAt)}.` : "The ranking follows with the first finding."}
        </p>
        <OtherEdition claim={claim} role={actor.role} />
        {isOpen(claim) && isContested(claim.verdicts) ? (
          <p className="note">
            <strong>The verdict was taken back.</strong> The claim waits for another; the earlier one stands below, with why it is seen otherwise in the messages and the story.
          </p>
        ) : null}
        {isOpen(claim) ? <Doubts claim={claim} /> : null}
        {stop && isOpen(claim) ? <Caution title={stop.title}>{stop.sentence}</Caution> : null}
      </div>
      <div className={css.columns}>
        <div>
          <section className="sheet">
            <OilPath id="claim-oil-path" hot={hotParts(ranking?.causes ?? [], claim)} caption="Where oil was found and where the likely causes lie" />
          </section>
          <Findings claim={claim} zone={zone} role={actor.role} toRecord={query.record} warnings={otherUnits.map(otherSerialInWords)} />
          <Photos claim={claim} />
          <CustomerSheet claim={claim} zone={zone} actor={actor} />
        </div>
        <div>
          {ranking ? (
            <>
              <section className="sheet">
                <h2>What explains it</h2>
                <Causes ranking={ranking} edition={claim.edition} selected={selected?.code} address={`/queue/${claim.id}`} />
              </section>
              {selected ? <Evidence ranking={ranking} cause={selected} edition={claim.edition} /> : null}
              <HangsOn claim={claim} />
            </>
          ) : null}
          <Checks claim={claim} zone={zone} role={actor.role} />
          <VerdictPanel claim={claim} zone={zone} role={actor.role} />
          <SecondOpinion actor={actor} claimId={claim.id} edition={claim.edition} zone={zone} />
          {returned.ok ? <ReturnSection claimId={claim.id} loaded={returned} /> : null}
          <SettlementSection actor={actor} claimId={claim.id} />
          {ranking ? <Shares ranking={ranking} /> : null}
          <InHand claim={claim} actor={actor} />
          <Related claim={claim} zone={zone} />
          <Story claim={claim} zone={zone} />
        </div>
      </div>
    </DeskShell>
  );
}

const lowerFirst = (words: string) => words.charAt(0).toLowerCase() + words.slice(1);
const isOpen = ({ stage }: StaffClaim) => QUEUE_STAGES.some((open) => open === stage);

/** A ranking names its edition, and is shown with it; what a newer one would say shows once the claim is ranked anew. */
function OtherEdition({ claim, role }: { claim: StaffClaim; role: StaffActor["role"] }) {
  if (!claim.kept || claim.kept.ranking.edition === claim.editionInForce || !isOpen(claim)) return null;
  return (
    <div className="note no-print">
      <p>Edition {claim.editionInForce} is in force since. Whether it would rank this claim otherwise shows once the claim is ranked anew, at the latest with its next finding.</p>
      {may(role, "record a finding") ? <ActForm action={rankAgain.bind(null, claim.id)} label={`Rank it with edition ${claim.editionInForce}`} isPlain /> : null}
    </div>
  );
}

function Crumbs({ claim, role }: { claim: StaffClaim; role: StaffActor["role"] }) {
  const { next, place, of } = claim.queue;
  const mayQueue = may(role, "see the queue");
  return (
    <div className={`${css.crumbs} small letter no-print`}>
      <span>{mayQueue ? <Link href="/queue">Queue</Link> : "Claim"}{mayQueue && place > 0 ? ` / ${place} of ${of}` : ""}</span>
      <span className={css.acts}>
        {mayQueue ? (
          <Link href="/queue" data-key="/">
            Search <KeyHint sign="/" />
          </Link>
        ) : null}
        {mayQueue && next ? (
          <Link href={`/queue/${next}`} data-key="n">
            Next claim <KeyHint sign="N" />
          </Link>
        ) : null}
        <Keys />
      </span>
    </div>
  );
}

function titleFacts(claim: StaffClaim, zone: Zone) {
  const late = isOpen(claim) && claim.promisedAt && isLate({ promisedAt: claim.promisedAt, firstAnswerAt: claim.firstAnswerAt }, new Date());
  return [
    { name: "Claim", value: claim.reference },
    { name: "Stage, in hand of", value: claim.mergedInto ? <>merged into <Link href={`/queue/${claim.mergedInto.id}`}>{claim.mergedInto.reference}</Link></> : `${STAGE_NAMES[claim.stage]}, ${claim.assignedTo?.name ?? "nobody"}` },
    { name: "Kit", value: claim.kit ?? "not known" },
    { name: "Vehicle", value: claim.vehicle ?? "not known" },
    { name: "Unit, batch", value: claim.unit ? `${claim.unit.serial} / ${claim.unit.batch}` : "not known" },
    ...(claim.shippedOn ? [{ name: "Shipped", value: zone.day(claim.shippedOn) }] : []),
    { name: "Fitted", value: [claim.fittedOn ? zone.day(claim.fittedOn) : "day not known", claim.run && `${claim.run} run`].filter(Boolean).join(", ") },
    ...(claim.filedAt ? [{ name: `Filed by ${OBSERVER_WORDS[claim.filedBy]}`, value: zone.time(claim.filedAt) }] : []),
    ...(claim.promisedAt ? [{ name: "Promised answer", value: `${zone.time(claim.promisedAt)}${late ? ", late" : claim.firstAnswerAt ? ", answered" : ""}` }] : []),
  ];
}

/** Where oil is, and where the likely causes lie, or the one that was decided. */
function hotParts(causes: readonly RankedCause[], { edition, findings, verdicts }: StaffClaim): OilPathPart[] {
  const wet = findings.flatMap(({ code, answer }) => {
    const definition = edition.findings.find((finding) => finding.code === code);
    const isWet = definition?.kind === "site" && answer === definition.options.find(({ value }) => value === "present")?.label;
    return isWet ? [definition.part] : [];
  });
  const decided = verdicts.filter(({ supersededAt }) => supersededAt === null).flatMap(({ primaryCause }) => edition.causes.find(({ code }) => code === primaryCause)?.part ?? []);
  return [...new Set([...wet, ...decided, ...causes.filter(({ probability }) => probability >= WORTH_MARKING).map(({ part }) => part)])];
}

function CustomerSheet({ claim, zone, actor }: { claim: StaffClaim; zone: Zone; actor: StaffActor }) {
  const { customer } = claim;
  if (!customer) return null;
  const facts = [
    ["Name", customer.name],
    ["E-mail", customer.email],
    ...(customer.phone ? [["Telephone", customer.phone]] : []),
    ...(customer.country ? [["Country", customer.country]] : []),
    ...(customer.orderNumber ? [["Order", customer.orderNumber]] : []),
    ...(customer.serial && customer.serial !== claim.unit?.serial ? [["Serial as typed", customer.serial]] : []),
    ...(customer.fitter ? [["Fitted by", customer.fitter]] : []),
  ];
  return (
    <section className="sheet" id="messages">
      <h2>{customer.wrote ? `The customer ${customer.wrote}` : "The customer and what was written"}</h2>
      <dl className={css.facts}>
        {facts.map(([name, value]) => (
          <div key={name} className={css.fact}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <ul className={css.messages}>
        {customer.description ? (
          <li data-from="customer">
            <span className="small soft">{customer.name}, in the complaint</span>
            <p>{customer.description}</p>
          </li>
        ) : null}
        {customer.messages.map(({ id, from, isStaff, body, createdAt }) => (
          <li key={id} data-from={isStaff ? "staff" : "customer"}>
            <span className="small soft">
              {from}, {zone.time(createdAt)}
            </span>
            <p>{body}</p>
          </li>
        ))}
      </ul>
      {may(actor.role, "write a message") ? <ActForm action={write.bind(null, claim.id)} fields={STAFF_MESSAGE_FIELDS} label="Send the message" isPlain className="no-print" /> : null}
      {customer.wrote && may(actor.role, "write a message") ? <ActForm action={setAside.bind(null, claim.id)} label="It needs no answer" isPlain className={`no-print ${css.after}`} /> : null}
    </section>
  );
}

function InHand({ claim, actor }: { claim: StaffClaim; actor: StaffActor }) {
  if (!isOpen(claim) || !may(actor.role, "record a finding")) return null;
  const from = claim.assignedTo?.id ?? null;
  return (
    <section className={`sheet no-print ${css.last}`}>
      <h2>{claim.assignedTo ? `In hand of ${claim.assignedTo.id === actor.personId ? "you" : claim.assignedTo.name}` : "In nobody\u2019s hand"}</h2>
      <div className={css.line}>
        {from === actor.personId ? null : (
          <ActForm action={take.bind(null, claim.id, from)} label="Take it">
            <input type="hidden" name="to" value={actor.personId} />
          </ActForm>
        )}
        <ActForm action={take.bind(null, claim.id, from)} label="Hand over" isPlain className={css.line ?? ""}>
          <select name="to" aria-label="Hand over to" defaultValue={from ?? ""}>
            <option value="">nobody</option>
            {claim.people.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </ActForm>
      </div>
    </section>
  );
}

function Related({ claim, zone }: { claim: StaffClaim; zone: Zone }) {
  if (claim.related.length === 0) return null;
  return (
    <section className={`sheet ${css.last}`}>
      <h2>{claim.related.length === 1 ? "One other claim like it" : `${claim.related.length} other claims like it`}</h2>
      <ul className={css.rows}>
        {claim.related.map(({ id, reference, stage, filedAt, isSameUnit, cause, isDecided }) => (
          <li key={id}>
            <Link className="letter" href={`/queue/${id}`}>
              {reference}
            </Link>
            <span>
              {isSameUnit ? "same unit" : "same customer"}
              {filedAt ? `, ${zone.time(filedAt)}` : ""}
              <br />
              <span className="small soft">
                {STAGE_NAMES[stage]}
                {cause ? `; ${isDecided ? "verdict" : "leader"}: ${cause}` : ""}
              </span>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
