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
import { FIRST_LANGUAGE, LANGUAGE_NAMES } from "@/lib/domain/claims/languages";
import { QUEUE_STAGES, STAGE_NAMES } from "@/lib/domain/claims/stages";
import { isContested } from "@/lib/domain/claims/verdict";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { RankedCause } from "@/lib/domain/diagnosis/ranking";
import { toStaff } from "@/lib/messages/words";
import { loadClaim, type StaffClaim } from "@/lib/operations/load-claim";
import { loadJoinedClaims } from "@/lib/operations/load-joined-claims";
import { loadReturnsOfClaim } from "@/lib/operations/load-returns";
import { KeyHint } from "../keys";
import { inZone } from "../times";
import { OBSERVER_WORDS, REMEDY_WORDS } from "../words";
import { ActForm } from "./act-form";
import { rankAgain, take } from "./actions";
import { Causes, Evidence, Shares } from "./causes";
import { Doubts, HangsOn } from "./causes-account";
import { Checks } from "./checks";
import css from "./claim.module.css";
import sheet from "./claim-sheet.module.css";
import { CustomerHistory } from "./customer-history";
import { DeskNotes } from "./desk-notes";
import { doneInWords } from "./done";
import { Elsewhere } from "./elsewhere";
import { Findings } from "./findings";
import { InTheirWords } from "./in-their-words";
import { Joined, UnitNotices } from "./joined";
import { Messages } from "./messages";
import { PhotoStrip } from "./photo-strip";
import { QueueWay } from "./queue-way";
import { Reaching } from "./reaching";
import { ReturnSection } from "./return-section";
import { SecondOpinion } from "./second-opinion";
import { SettlementSection } from "./settlement-section";
import { Story } from "./story";
import { nameOf, VerdictPanel } from "./verdict-panel";
import { WarrantySection } from "./warranty-section";

export const metadata: Metadata = { title: "Claim" };

type Zone = ReturnType<typeof inZone>;
type Query = Readonly<Partial<Record<"cause" | "record" | "done" | "template" | "language" | "story", string>>>;

/** From here on the leader's balloon is filled: there the blame lies. */
const WORTH_MARKING = 0.2;

export default async function ClaimPage({ params, searchParams }: { params: Promise<{ claimId: string }>; searchParams: Promise<Query> }) {
  const [{ claimId }, query] = await Promise.all([params, searchParams]);
  if (!z.guid().safeParse(claimId).success) notFound();
  const actor = await requireStaff(`/queue/${claimId}`);
  const claim = await loadClaim(actor, claimId);
  if (!claim.ok) return claim.reason === "not-allowed" ? forbidden() : notFound();
  const [returned, joined] = await Promise.all([loadReturnsOfClaim(actor, claimId), loadJoinedClaims(actor, claimId)]);
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
      <QueueWay actor={actor} claimId={claim.id} query={query} />
      <Reaching actor={actor} claimId={claim.id} language={claim.customer?.language} />
      {done ? (
        <p className="note" role="status">
          <strong>{done}</strong>
        </p>
      ) : null}
      <TitleBlock facts={titleFacts(claim, zone)} />
      {joined.ok ? <UnitNotices joined={joined} /> : null}
      <div className={sheet.head}>
        <div>
          <h1>{standing ? `Decided: ${lowerFirst(nameOf(standing.primaryCause, claim.edition))}; ${REMEDY_WORDS[standing.remedy]}` : (account?.headline ?? "Nothing has been ranked yet")}</h1>
          <p className="soft">
            {account ? `${standing ? `The ranking: ${account.headline}. ` : ""}${account.sentence} ` : ""}
            {claim.kept ? `Edition ${claim.kept.ranking.edition}, ranked ${zone.time(claim.kept.createdAt)}.` : "The ranking follows with the first finding."}
          </p>
          {stop && isOpen(claim) ? <Caution title={stop.title}>{stop.sentence}</Caution> : null}
          <OtherEdition claim={claim} role={actor.role} />
          {isOpen(claim) && isContested(claim.verdicts) ? (
            <p className="note">
              <strong>The verdict was taken back.</strong> The claim waits for another; the earlier one stands with the verdict, and why it is seen otherwise in the messages and the story.
            </p>
          ) : null}
          {isOpen(claim) ? <Doubts claim={claim} /> : null}
          <nav aria-label="On this sheet" className={`${sheet.jump} small letter no-print`}>
            {jumps(claim, actor.role).map(({ to, name, sign }) => (
              <a key={to} href={to} {...(sign ? { "data-key": sign.toLowerCase() } : {})}>
                {name} {sign ? <KeyHint sign={sign} /> : null}
              </a>
            ))}
          </nav>
        </div>
        <div>
          <InTheirWords claim={claim} />
          <PhotoStrip claim={claim} />
        </div>
      </div>
      <div className={sheet.columns}>
        <div className={sheet.path}>
          <section className="sheet">
            <OilPath id="claim-oil-path" hot={hotParts(ranking?.causes ?? [], claim)} caption="Where oil was found and where the likely causes lie" say={toStaff} />
          </section>
          <Findings claim={claim} zone={zone} role={actor.role} toRecord={query.record} warnings={otherUnits.map(otherSerialInWords)} />
          <HangsOn claim={claim} />
        </div>
        <div>
          {ranking ? (
            <>
              <section className="sheet" id="causes">
                <h2>What explains it</h2>
                <Causes ranking={ranking} edition={claim.edition} selected={selected?.code} address={`/queue/${claim.id}`} />
              </section>
              {selected ? <Evidence ranking={ranking} cause={selected} edition={claim.edition} /> : null}
              <Shares ranking={ranking} />
            </>
          ) : null}
        </div>
        <div className={sheet.decide}>
          <VerdictPanel claim={claim} zone={zone} actor={actor} />
          <Checks claim={claim} zone={zone} role={actor.role} />
          <WarrantySection actor={actor} claimId={claim.id} />
        </div>
      </div>
      <div className={sheet.beside}>
        <div>
          <Messages claim={claim} zone={zone} actor={actor} chosen={query} />
          <DeskNotes claim={claim} zone={zone} />
        </div>
        <div>
          <InHand claim={claim} actor={actor} />
          {returned.ok ? <ReturnSection claimId={claim.id} loaded={returned} /> : null}
          <SettlementSection actor={actor} claimId={claim.id} />
          <SecondOpinion actor={actor} claimId={claim.id} edition={claim.edition} zone={zone} />
          <Elsewhere actor={actor} claimId={claim.id} edition={claim.edition} />
        </div>
        <div>
          {joined.ok ? <Joined joined={joined} claim={claim} zone={zone} /> : null}
          <CustomerHistory actor={actor} claimId={claim.id} edition={claim.edition} zone={zone} />
          <Story claim={claim} zone={zone} thread={query.story} />
        </div>
      </div>
    </DeskShell>
  );
}

/** Where the sections stand that are not on the first screen. */
function jumps(claim: StaffClaim, role: StaffActor["role"]): readonly { to: string; name: string; sign?: string }[] {
  const { id, customer, notes, photos } = claim;
  return [
    ...(photos[0] ? [{ to: `/queue/${id}/look/${photos[0].id}`, name: photos.length === 1 ? "One photo" : `${photos.length} photos`, sign: "F" }] : []),
    ...(customer ? [{ to: "#messages", name: `Messages${customer.messages.length > 0 ? `, ${customer.messages.length}` : ""}`, sign: "W" }] : []),
    ...(notes ? [{ to: "#notes", name: `Notes${notes.length > 0 ? `, ${notes.length}` : ""}`, sign: "O" }] : []),
    ...(isInSomeHand(claim, role) ? [{ to: "#in-hand", name: "Take or hand over" }] : []),
    { to: "#joined", name: "Other claims" },
    { to: "#story", name: "Story", sign: "S" },
  ];
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

function titleFacts(claim: StaffClaim, zone: Zone) {
  const late = isOpen(claim) && claim.promisedAt && isLate({ promisedAt: claim.promisedAt, firstAnswerAt: claim.firstAnswerAt }, new Date());
  return [
    { name: "Claim", value: claim.reference },
    { name: "Stage, in hand of", value: claim.mergedInto ? <>merged into <Link href={`/queue/${claim.mergedInto.id}`}>{claim.mergedInto.reference}</Link></> : `${STAGE_NAMES[claim.stage]}, ${claim.assignedTo?.name ?? "nobody"}` },
    ...(claim.customer && claim.customer.language !== FIRST_LANGUAGE ? [{ name: "Customer reads", value: LANGUAGE_NAMES[claim.customer.language] }] : []),
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

const isInSomeHand = (claim: StaffClaim, role: StaffActor["role"]) => isOpen(claim) && may(role, "record a finding");

/** Who has the claim, and to take or hand it over. */
function InHand({ claim, actor }: { claim: StaffClaim; actor: StaffActor }) {
  if (!isInSomeHand(claim, actor.role)) return null;
  const from = claim.assignedTo?.id ?? null;
  return (
    <section className="sheet no-print" id="in-hand">
      <h2>{claim.assignedTo ? `In hand of ${claim.assignedTo.id === actor.personId ? "you" : claim.assignedTo.name}` : "In nobody\u2019s hand"}</h2>
      <div className={css.line}>
        {from === actor.personId ? null : (
          <ActForm
            action={take.bind(null, claim.id, from)}
            label={
              <>
                Take it&nbsp;
                <KeyHint sign="H" />
              </>
            }
            sign="h"
          >
            <input type="hidden" name="to" value={actor.personId} />
          </ActForm>
        )}
        <ActForm action={take.bind(null, claim.id, from)} label="Hand over" isPlain className={css.line ?? ""}>
          <select name="to" aria-label="Hand over to" defaultValue={from ?? ""} data-key={from === actor.personId ? "h" : undefined}>
            <option value="">nobody</option>
            {claim.people.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
          <input name="note" maxLength={300} autoComplete="off" aria-label="A word to the next person (optional)" placeholder="with a word (optional)" />
        </ActForm>
      </div>
    </section>
  );
}
