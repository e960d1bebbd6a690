import Link from "next/link";
import { transition } from "@/lib/domain/claims/lifecycle";
import { may } from "@/lib/domain/claims/permissions";
import type { Role } from "@/lib/domain/claims/roles";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { IntakeField } from "@/lib/domain/intake/fields";
import { LONGEST } from "@/lib/domain/intake/fields";
import type { GivenVerdict, StaffClaim } from "@/lib/operations/load-claim";
import { KeyHint } from "../keys";
import type { inZone } from "../times";
import { ATTRIBUTION_WORDS, BASIS_WORDS, ORIGIN_WORDS, REMEDY_WORDS } from "../words";
import { ActForm } from "./act-form";
import { reopen } from "./actions";
import css from "./claim.module.css";

type Zone = ReturnType<typeof inZone>;

const APPEAL_FIELDS: readonly IntakeField[] = [{ name: "reason", kind: "text", label: "What speaks against the verdict", longest: LONGEST.words, lines: 3 }];

/** The verdict that stands, or the way to one; earlier ones below. */
export function VerdictPanel({ claim, zone, role }: { claim: StaffClaim; zone: Zone; role: Role }) {
  const standing = claim.verdicts.find(({ supersededAt }) => supersededAt === null);
  const earlier = claim.verdicts.filter(({ supersededAt }) => supersededAt !== null);
  const canDecide = may(role, "confirm a verdict") && transition(claim.stage, "decide").ok;
  if (!standing && !canDecide && earlier.length === 0) return null;
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
      ) : canDecide ? (
        <>
          <h2>Verdict</h2>
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

function VerdictFacts({ verdict, edition, zone }: { verdict: GivenVerdict; edition: Edition; zone: Zone }) {
  const facts = [
    ["Cause", nameOf(verdict.primaryCause, edition)],
    ...(verdict.contributingCauses.length > 0 ? [["Contributing", verdict.contributingCauses.map((code) => nameOf(code, edition)).join("; ")]] : []),
    ["Lies with", `${ATTRIBUTION_WORDS[verdict.attribution]}${verdict.origin ? ` (${ORIGIN_WORDS[verdict.origin]})` : ""}`],
    ["Rests on", `${BASIS_WORDS[verdict.basis]}; ranking ${verdict.way}`],
    ["Remedy", REMEDY_WORDS[verdict.remedy]],
    ...(verdict.reason ? [["Reason", verdict.reason]] : []),
    ["By", `${verdict.by}, ${zone.time(verdict.decidedAt)}${verdict.supersededAt ? `; stood until ${zone.time(verdict.supersededAt)}` : ""}`],
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
