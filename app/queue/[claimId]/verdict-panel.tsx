import Link from "next/link";
import type { StaffActor } from "@/lib/access/actors";
import { transition } from "@/lib/domain/claims/lifecycle";
import type { Language } from "@/lib/domain/claims/languages";
import { may } from "@/lib/domain/claims/permissions";
import { formatMoney } from "@/lib/domain/claims/money";
import { SECOND_PERSON_WORDS } from "@/lib/domain/claims/second-person";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { IntakeField } from "@/lib/domain/intake/fields";
import { LONGEST } from "@/lib/domain/intake/fields";
import type { GivenVerdict, StaffClaim } from "@/lib/operations/load-claim";
import { loadVerdictMatter, type ShownProposal } from "@/lib/operations/load-verdict-matter";
import { KeyHint } from "../keys";
import type { inZone } from "../times";
import { ATTRIBUTION_WORDS, BASIS_WORDS, ORIGIN_WORDS, REMEDY_WORDS } from "../words";
import { ActForm } from "./act-form";
import { reopen } from "./actions";
import css from "./claim.module.css";
import { approve, sendBack, takeBackProposed } from "./second-look-actions";
import sheet from "./verdict.module.css";

type Zone = ReturnType<typeof inZone>;

const APPEAL_FIELDS: readonly IntakeField[] = [{ name: "reason", kind: "text", label: "What speaks against the verdict", longest: LONGEST.words, lines: 3 }];

const SEND_BACK_FIELDS: readonly IntakeField[] = [{ name: "note", kind: "text", label: "What is to be looked at again", longest: LONGEST.words, lines: 3 }];

/** The verdict that stands, the one that waits for a second person, or the way to one; earlier ones below. */
export async function VerdictPanel({ claim, zone, actor }: { claim: StaffClaim; zone: Zone; actor: StaffActor }) {
  const { role } = actor;
  const matter = await loadVerdictMatter(actor, claim.id);
  const standing = claim.verdicts.find(({ supersededAt }) => supersededAt === null);
  const earlier = claim.verdicts.filter(({ supersededAt }) => supersededAt !== null);
  const isOpen = transition(claim.stage, "decide").ok;
  const canDecide = may(role, "confirm a verdict") && isOpen;
  const waiting = matter.ok && isOpen ? matter.waiting : null;
  if (!standing && !canDecide && !waiting && earlier.length === 0) return null;
  const leader = claim.proposed.primaryCause && nameOf(claim.proposed.primaryCause, claim.edition);
  return (
    <section className="sheet" id="verdict">
      {standing ? (
        <>
          <h2>The verdict that stands</h2>
          <VerdictFacts verdict={standing} edition={claim.edition} zone={zone} />
          {standing.letter ? (
            <p className="no-print">
              <Link href={`/queue/${claim.id}/letter`}>Read or print the letter</Link>
            </p>
          ) : null}
          {may(role, "confirm a verdict") && transition(claim.stage, "appeal").ok ? (
            <details className="no-print">
              <summary>The customer sees it otherwise, and there is something to it</summary>
              <p className="small soft">The claim goes back into review. This verdict no longer stands, and stays below.</p>
              <ActForm action={reopen.bind(null, claim.id)} fields={APPEAL_FIELDS} label="Take it back into review" isPlain />
            </details>
          ) : null}
        </>
      ) : waiting && matter.ok ? (
        <WaitingVerdict claim={claim} proposal={waiting} mayLook={matter.mayLook} zone={zone} />
      ) : canDecide && matter.ok ? (
        <>
          <h2>Verdict</h2>
          {matter.objection ? <Objection objection={matter.objection} language={claim.customer?.language} mayDecideAgain={matter.mayDecideAgain} /> : null}
          {matter.sentBack ? (
            <p className="note">
              <strong>Sent back by {matter.sentBack.lookedAtBy}:</strong> {matter.sentBack.note}
            </p>
          ) : null}
          {matter.remedy ? <p>Expected to cost least of what fits: {REMEDY_WORDS[matter.remedy]}.</p> : null}
          <p>{leader ? `The ranking puts first: ${leader}.` : "The ranking has no leader to propose: you name the cause."} Nothing goes out before you have read the letter.</p>
          <p className="no-print">
            <Link className="button tight" href={`/queue/${claim.id}/verdict`} data-key="v">
              Decide it&nbsp;
              <KeyHint sign="V" />
            </Link>
          </p>
        </>
      ) : (
        <h2>No verdict stands</h2>
      )}
      {earlier.length > 0 ? (
        <details>
          <summary>{earlier.length === 1 ? "One earlier verdict" : `${earlier.length} earlier verdicts`}</summary>
          {earlier.map((verdict) => (
            <VerdictFacts key={verdict.id} verdict={verdict} edition={claim.edition} zone={zone} />
          ))}
        </details>
      ) : null}
    </section>
  );
}

/** What speaks against the verdict that was taken back, and who answers it. */
function Objection({ objection, language, mayDecideAgain }: { objection: { words: string; decidedBy: string }; language: Language | undefined; mayDecideAgain: boolean }) {
  return (
    <>
      {objection.words ? <p className={sheet.objection} lang={language}>{objection.words}</p> : null}
      <p>
        {objection.decidedBy} gave the verdict that is objected to. {mayDecideAgain ? "Somebody else looks at it now: your letter answers the objection." : "Somebody else answers the objection, or an administrator: leave it to them."}
      </p>
    </>
  );
}

function WaitingVerdict({ claim, proposal, mayLook, zone }: { claim: StaffClaim; proposal: ShownProposal; mayLook: boolean; zone: Zone }) {
  const { id, by, at, isOwn, isOutdated, grounds, letter } = proposal;
  return (
    <>
      <h2>A verdict waits for a second pair of eyes</h2>
      <p>
        {by} proposed it on {zone.time(at)}, and the customer has heard nothing: {grounds.map((ground) => SECOND_PERSON_WORDS[ground]).join("; ")}.
      </p>
      <VerdictFacts verdict={{ ...proposal, decidedAt: at, supersededAt: null, approvedBy: null, objection: "" }} edition={claim.edition} zone={zone} />
      {letter ? (
        <details open={mayLook && !isOwn}>
          <summary>The letter that would go out</summary>
          <div className={css.letter} lang={claim.customer?.language}>
            {letter}
          </div>
        </details>
      ) : null}
      {isOutdated ? <p className="error">Something new was found since: send it back, so that it is decided anew.</p> : null}
      {mayLook ? (
        <div className="no-print">
          {isOwn ? <p className="soft">You proposed it: somebody else looks at it.</p> : null}
          {isOwn || isOutdated ? null : <ActForm action={approve.bind(null, claim.id, id)} label="Approve it and send the letter" />}
          {isOwn ? null : <ActForm action={sendBack.bind(null, claim.id, id)} fields={SEND_BACK_FIELDS} label="Send it back" isPlain />}
          {isOwn ? <ActForm action={takeBackProposed.bind(null, claim.id, id)} label="Take it back" isPlain /> : null}
        </div>
      ) : null}
    </>
  );
}

/** @example "€400.00, of which we bear 70 %; a deposit of €150.00" */
function promiseInWords({ promisedMinor, promisedCurrency, sellerPercent, coreDepositMinor, paysCarriage }: GivenVerdict): string {
  const sum = (minor: number) => formatMoney(minor, promisedCurrency ?? "");
  const parts = [
    promisedMinor === null ? "" : `${sum(promisedMinor)}${sellerPercent < 100 ? `, of which we bear ${sellerPercent} %` : ""}`,
    coreDepositMinor === null ? "" : `a deposit of ${sum(coreDepositMinor)} held for the old part`,
    paysCarriage ? "carriage of the old unit" : "",
  ];
  return parts.filter(Boolean).join("; ");
}

function VerdictFacts({ verdict, edition, zone }: { verdict: GivenVerdict; edition: Edition; zone: Zone }) {
  const facts = [
    ["Cause", nameOf(verdict.primaryCause, edition)],
    ...(verdict.contributingCauses.length > 0 ? [["Contributing", verdict.contributingCauses.map((code) => nameOf(code, edition)).join("; ")]] : []),
    ["Lies with", `${ATTRIBUTION_WORDS[verdict.attribution]}${verdict.origin ? ` (${ORIGIN_WORDS[verdict.origin]})` : ""}`],
    ["Rests on", `${BASIS_WORDS[verdict.basis]}; ranking ${verdict.way}`],
    ["Remedy", REMEDY_WORDS[verdict.remedy]],
    ...(verdict.reason ? [["Reason", verdict.reason]] : []),
    ...(promiseInWords(verdict) ? [["Promised", promiseInWords(verdict)]] : []),
    ["By", `${verdict.by}${verdict.approvedBy ? `, approved by ${verdict.approvedBy}` : ""}, ${zone.time(verdict.decidedAt)}${verdict.supersededAt ? `; stood until ${zone.time(verdict.supersededAt)}` : ""}`],
  ];
  return (
    <dl className={css.facts}>
      {facts.map(([name, value]) => (
        <div key={name} className={css.fact}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** The staff's name of a cause; its code where the edition has none. */
export function nameOf(code: string, edition: Edition): string {
  return edition.causes.find((cause) => cause.code === code)?.name ?? code;
}
