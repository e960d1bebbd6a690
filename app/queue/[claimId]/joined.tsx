import Link from "next/link";
import { transition } from "@/lib/domain/claims/lifecycle";
import { OTHER_UNIT_NAMES, PAIR_UNIT_NAMES, PAIR_UNITS } from "@/lib/domain/claims/pair-units";
import { QUEUE_STAGES, STAGE_NAMES } from "@/lib/domain/claims/stages";
import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import type { JoinedClaims } from "@/lib/operations/load-joined-claims";
import type { StaffClaim } from "@/lib/operations/load-claim";
import type { inZone } from "../times";
import { ActForm } from "./act-form";
import css from "./claim.module.css";
import { link, merge, namePair, takeOut, unlink } from "./joined-actions";
import { NOTICE_WORDS, noticedClaim } from "./joined-words";

type Zone = ReturnType<typeof inZone>;

const MERGE_FIELDS: readonly IntakeField[] = [{ name: "into", kind: "text", label: "Reference of the claim that goes on", longest: LONGEST.code }];
const LINK_FIELDS: readonly IntakeField[] = [
  { name: "reference", kind: "text", label: "Reference of the other claim", longest: LONGEST.code },
  { name: "why", kind: "text", label: "What they have to do with each other (optional)", longest: LONGEST.name },
];
const PAIR_FIELDS: readonly IntakeField[] = [
  {
    name: "pairUnit",
    kind: "select",
    label: "It is about",
    options: PAIR_UNITS.map((value) => ({ value, label: PAIR_UNIT_NAMES[value] })),
  },
  { name: "serial", kind: "text", label: "Serial; of the large unit where it is both", longest: LONGEST.code, signs: "code" },
  { name: "otherSerial", kind: "text", label: "Serial of the pair\u2019s other unit", longest: LONGEST.code, signs: "code" },
];

/** What is noticed about the unit, at the head of the sheet. */
export function UnitNotices({ joined: { notices } }: { joined: JoinedClaims }) {
  if (notices.length === 0) return null;
  return (
    <ul className={css.notices} aria-label="Noticed about the unit">
      {notices.map((notice) => {
        const other = noticedClaim(notice);
        const { says, means } = NOTICE_WORDS[notice.kind];
        return (
          <li key={notice.kind + (other?.id ?? "")} className="note">
            <strong>{says}</strong>
            {other ? (
              <>
                {": "}
                <Link href={`/queue/${other.id}`}>{other.words}</Link>
              </>
            ) : null}
            . {means}
          </li>
        );
      })}
    </ul>
  );
}

/** The claims this one belongs with: merged, linked; which unit of a pair; and how to say so. */
export function Joined({ joined: { linked, mayJoin, notices }, claim, zone }: { joined: JoinedClaims; claim: StaffClaim; zone: Zone }) {
  const isOpen = QUEUE_STAGES.some((stage) => stage === claim.stage);
  const count = linked.length + claim.merged.length;
  // The other claim about this serial is the likeliest to be meant.
  const twin = notices.flatMap((notice) => ("claim" in notice ? [notice.claim.reference] : []))[0] ?? "";
  if (count === 0 && !claim.mergedInto && !mayJoin && claim.pair.unit === null) return null;
  return (
    <section className="sheet" id="joined">
      <h2>{claim.mergedInto ? `It goes on as ${claim.mergedInto.reference}` : count === 0 ? "It stands alone" : count === 1 ? "One claim belongs with it" : `${count} claims belong with it`}</h2>
      <ul className={css.rows}>
        {claim.merged.map(({ id, reference, filedAt }) => (
          <li key={id}>
            <Link className="letter" href={`/queue/${id}`}>
              {reference}
            </Link>
            <span>
              the same complaint{filedAt ? `, filed ${zone.time(filedAt)}` : ""}; what it holds is shown and counted here
            </span>
          </li>
        ))}
        {linked.map(({ id, reference, stage, why, by, linkedAt }) => (
          <li key={id}>
            <Link className="letter" href={`/queue/${id}`}>
              {reference}
            </Link>
            <span>
              {why || "has to do with it"}
              <br />
              <span className="small soft">
                {STAGE_NAMES[stage]}; linked by {by}, {zone.time(linkedAt)}
              </span>
            </span>
            {mayJoin ? <ActForm action={unlink.bind(null, claim.id, id)} label="unlink" of={reference} isPlain className="no-print" /> : null}
          </li>
        ))}
      </ul>
      {claim.pair.unit ? (
        <p>
          About {PAIR_UNIT_NAMES[claim.pair.unit]}
          {claim.pair.serial ? <>, serial <span className="num">{claim.pair.serial}</span></> : null}
          {claim.pair.otherSerial ? (
            <>
              ; {OTHER_UNIT_NAMES[claim.pair.unit]} is <span className="num">{claim.pair.otherSerial}</span>
            </>
          ) : null}
          .
        </p>
      ) : null}
      {mayJoin ? (
        <div className="no-print">
          <details>
            <summary>Link it with a claim that has to do with it</summary>
            <p className="small soft">Related, not the same: each goes its own way, and both tell of the other.</p>
            <ActForm action={link.bind(null, claim.id)} fields={LINK_FIELDS} initial={{ reference: twin }} label="Link them" isPlain />
          </details>
          {transition(claim.stage, "merge").ok ? (
            <details>
              <summary>It is the same complaint filed before: merge it</summary>
              <p className="small soft">
                This one ends as merged and its customer is told so. Findings, photos and messages are shown with the other, which is ranked by both; of what one observer said twice the newer counts. Until the other is decided it can be taken
                apart again, after that no more.
              </p>
              <ActForm action={merge.bind(null, claim.id)} fields={MERGE_FIELDS} initial={{ into: twin }} label="Merge it into that one" isPlain>
                <input type="hidden" name="version" value={claim.version} />
              </ActForm>
            </details>
          ) : null}
          {transition(claim.stage, "take_apart").ok ? (
            <details>
              <summary>It is not the same after all: take them apart</summary>
              <p className="small soft">This one goes back into review, with whoever had it, and the other is ranked without it.</p>
              <ActForm action={takeOut.bind(null, claim.id)} label="Take them apart" isPlain />
            </details>
          ) : null}
          {isOpen ? (
            <details>
              <summary>{claim.pair.unit ? "Change which unit of the pair it is" : "It is a unit of a compound pair"}</summary>
              <p className="small soft">One claim may be about both units: they feed each other oil, so neither can be judged alone.</p>
              <ActForm action={namePair.bind(null, claim.id)} fields={PAIR_FIELDS} initial={{ pairUnit: claim.pair.unit ?? "", serial: claim.pair.serial ?? "", otherSerial: claim.pair.otherSerial ?? "" }} label="Keep it" isPlain />
            </details>
          ) : null}
        </div>
      ) : null}
    </section>
  );
}
