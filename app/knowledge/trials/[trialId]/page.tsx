import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { percent } from "@/app/_components/scale";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { inZone } from "@/app/queue/times";
import { requireStaff } from "@/lib/access/staff";
import { may } from "@/lib/domain/claims/permissions";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { type DryRunResult, NOTABLE_SHIFT } from "@/lib/domain/diagnosis/dry-run";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { loadTrial, type TrialShown } from "@/lib/operations/load-knowledge";
import css from "../../knowledge.module.css";
import { trialState } from "../../trial-list";
import { figure } from "../../words";
import { LookAgain } from "./look-again";

export const metadata: Metadata = { title: "Dry run" };

export default async function TrialPage({ params, searchParams }: { params: Promise<{ trialId: string }>; searchParams: Promise<{ page?: string }> }) {
  const [{ trialId }, { page: given }] = await Promise.all([params, searchParams]);
  if (!z.uuid().safeParse(trialId).success) notFound();
  const actor = await requireStaff(`/knowledge/trials/${trialId}`);
  const page = z.coerce.number().int().min(1).max(100_000).catch(1).parse(given);
  const shown = await loadTrial(actor, trialId, page);
  if (!shown.ok) return shown.reason === "not-allowed" ? forbidden() : notFound();
  const { trial, timeZone } = shown;
  const { time } = inZone(timeZone);
  // A dry run's result is written by `runDryRun` alone.
  const result = trial.kind === "dry_run" ? (trial.result as DryRunResult | null) : null;
  return (
    <DeskShell actor={actor} here="Knowledge">
      <p className="small no-print">
        <Link href={`/knowledge/${trial.editionNumber}`}>Edition {trial.editionNumber}</Link>
      </p>
      <h1>{result ? headline(result, trial.editionNumber) : `Dry run of edition ${trial.editionNumber}: ${trialState(trial)}`}</h1>
      <TitleBlock
        facts={[
          { name: "Edition", value: <Link href={`/knowledge/${trial.editionNumber}`}>{trial.editionNumber}</Link> },
          { name: "Beside", value: <Link href={`/knowledge/${trial.againstNumber}`}>{trial.againstNumber}</Link> },
          { name: "Asked for", value: `${trial.askedBy?.name ?? "the program"}, ${time(trial.askedAt)}` },
          { name: "Claims", value: trial.of.toLocaleString("en") },
          { name: "Done", value: trial.finishedAt ? time(trial.finishedAt) : trialState(trial) },
        ]}
      />
      {trial.finishedAt ? null : <Progress id={trial.id} done={trial.done} of={trial.of} />}
      {result ? <Found result={result} shown={shown} seesClaims={may(actor.role, "see a claim")} /> : null}
    </DeskShell>
  );
}

function headline({ claims, otherLeader }: DryRunResult, edition: number): string {
  if (otherLeader === 0) return `Edition ${edition} leads every one of ${claims.toLocaleString("en")} claims as before`;
  return `Edition ${edition} would lead ${otherLeader.toLocaleString("en")} of ${claims.toLocaleString("en")} claims otherwise`;
}

function Progress({ id, done, of }: { id: string; done: number; of: number }) {
  return (
    <>
      <svg className={css.progress} aria-hidden="true" focusable="false">
        <rect className={css.for} x="0" y="1" height="12" width={`${of === 0 ? 0 : (done / of) * 100}%`} />
        <rect className={css.frame} x="0" y="1" height="12" width="100%" />
      </svg>
      <p role="status">
        {done.toLocaleString("en")} of {of.toLocaleString("en")} claims ranked. <LookAgain address={`/knowledge/trials/${id}`} />
      </p>
    </>
  );
}

function Found({ result, shown, seesClaims }: { result: DryRunResult; shown: TrialShown; seesClaims: boolean }) {
  const { unit, unitRemedies, decided, contradictions, moves } = result;
  const { trial, changes, page, hasMore, edition, against } = shown;
  const nameIn = (editions: readonly (typeof edition)[], code: CauseCode | null) => (code === null ? "no cause: what was found cannot happen" : (editions.flatMap(({ causes }) => causes).find((cause) => cause.code === code)?.name ?? code));
  const before = (code: CauseCode | null) => nameIn([against, edition], code);
  const after = (code: CauseCode | null) => nameIn([edition, against], code);
  const count = (claims: number) => (claims === 1 ? "1 claim" : `${claims.toLocaleString("en")} claims`);
  return (
    <div className={css.sheets}>
      <section className="sheet" aria-labelledby="what">
        <h2 id="what">What it comes to</h2>
        <table className={css.list}>
          <thead>
            <tr>
              <th scope="col">Over {count(result.claims)}</th>
              <th scope="col" className="num">
                Edition {trial.againstNumber}
              </th>
              <th scope="col" className="num">
                Edition {trial.editionNumber}
              </th>
              <th scope="col">Between them</th>
            </tr>
          </thead>
          <tbody>
            <Row name="Unit defective, mean probability" before={`${figure(unit.meanBefore * 100)} %`} after={`${figure(unit.meanAfter * 100)} %`}>
              {`up by ${NOTABLE_SHIFT * 100} points or more for ${count(unit.raised)}, down for ${unit.lowered.toLocaleString("en")}`}
            </Row>
            <Row name="A remedy for the unit is spoken for" before={unitRemedies.before} after={unitRemedies.after}>{`${count(unitRemedies.came)} more, ${unitRemedies.went.toLocaleString("en")} no more`}</Row>
            <Row name={`Led by the verdict's cause, of ${decided.claims.toLocaleString("en")} decided`} before={decided.ledBefore} after={decided.ledAfter}>{`${count(decided.gained)} gained, ${decided.lost.toLocaleString("en")} lost`}</Row>
            <Row name="What was found cannot happen" before={contradictions.before} after={contradictions.after} />
          </tbody>
        </table>
      </section>
      {moves.length > 0 ? (
        <section className="sheet" aria-labelledby="moves">
          <h2 id="moves">From which leader to which</h2>
          <table className={css.list}>
            <thead>
              <tr>
                <th scope="col">Leads now</th>
                <th scope="col">Would lead</th>
                <th scope="col" className="num">
                  Claims
                </th>
              </tr>
            </thead>
            <tbody>
              {moves.map(({ from, to, claims }) => (
                <tr key={`${from} ${to}`}>
                  <td data-name="Now">{before(from)}</td>
                  <td data-name="Then">{after(to)}</td>
                  <td className="num" data-name="Claims">
                    {claims.toLocaleString("en")}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : null}
      {changes.length > 0 ? (
        <section className="sheet" aria-labelledby="claims">
          <h2 id="claims">The claims, surest of the new leader first</h2>
          <table className={css.list}>
            <thead>
              <tr>
                <th scope="col">Claim</th>
                <th scope="col">Leads now</th>
                <th scope="col">Would lead</th>
                <th scope="col" className="num">
                  Unit defective
                </th>
              </tr>
            </thead>
            <tbody>
              {changes.map(({ claimId, claim, beforeCause, beforeProbability, afterCause, afterProbability, unitShift }) => (
                <tr key={claimId}>
                  <th scope="row">
                    {seesClaims ? <Link href={`/queue/${claimId}`}>{claim.reference}</Link> : claim.reference} <span className="small soft">{STAGE_NAMES[claim.stage]}</span>
                  </th>
                  <td data-name="Now">
                    {before(beforeCause)} {beforeProbability === null ? null : <span className="num">{percent(beforeProbability)}</span>}
                  </td>
                  <td data-name="Then">
                    {after(afterCause)} {afterProbability === null ? null : <span className="num">{percent(afterProbability)}</span>}
                  </td>
                  <td className="num" data-name="Unit defective">
                    {points(unitShift)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          {page > 1 || hasMore ? (
            <nav className={`${css.acts} letter no-print`} aria-label="Pages">
              {page > 1 ? <Link href={`/knowledge/trials/${trial.id}?page=${page - 1}`}>Page before</Link> : null}
              <span>Page {page}</span>
              {hasMore ? <Link href={`/knowledge/trials/${trial.id}?page=${page + 1}`}>Next page</Link> : null}
            </nav>
          ) : null}
        </section>
      ) : null}
    </div>
  );
}

/** @example -0.018: "−1.8 points" */
function points(shift: number): string {
  const words = (Math.abs(shift) * 100).toFixed(1);
  return words === "0.0" ? "as before" : `${shift < 0 ? "−" : "+"}${words} points`;
}

function Row({ name, before, after, children }: { name: string; before: string | number; after: string | number; children?: string }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td className="num" data-name="Now">
        {before.toLocaleString("en")}
      </td>
      <td className="num" data-name="Then">
        {after.toLocaleString("en")}
      </td>
      <td>{children}</td>
    </tr>
  );
}
