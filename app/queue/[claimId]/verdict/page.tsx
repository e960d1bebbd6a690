import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { Balloon } from "@/app/_components/balloon";
import { percent, Scale } from "@/app/_components/scale";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { transition } from "@/lib/domain/claims/lifecycle";
import { may } from "@/lib/domain/claims/permissions";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { loadClaim } from "@/lib/operations/load-claim";
import { loadVerdictMatter } from "@/lib/operations/load-verdict-matter";
import { ATTRIBUTION_WORDS, OBSERVER_WORDS } from "../../words";
import { KeyHint, Keys } from "../../keys";
import css from "../claim.module.css";
import way from "../queue-way.module.css";
import { RemedyCosts } from "../remedy-costs";
import { subjectInWords } from "../photo-strip";
import sheet from "../verdict.module.css";
import { WarrantyAccount } from "../warranty-section";
import { decide } from "./actions";
import { VerdictForm } from "./verdict-form";

export const metadata: Metadata = { title: "Verdict" };

export default async function VerdictPage({ params }: { params: Promise<{ claimId: string }> }) {
  const { claimId } = await params;
  if (!z.guid().safeParse(claimId).success) notFound();
  const actor = await requireStaff(`/queue/${claimId}/verdict`);
  const claim = await loadClaim(actor, claimId);
  if (!claim.ok) return claim.reason === "not-allowed" ? forbidden() : notFound();
  if (!may(actor.role, "confirm a verdict")) forbidden();
  const matter = await loadVerdictMatter(actor, claimId);
  if (!matter.ok) notFound();
  const ranked = claim.kept?.ranking.outcome === "ranked" ? claim.kept.ranking.causes : [];
  const placeOf = (code: string) => ranked.findIndex((cause) => cause.code === code);
  const causes = [...claim.edition.causes].sort((a, b) => placeOf(a.code) - placeOf(b.code));

  return (
    <DeskShell actor={actor} here="Queue">
      <div className={`${way.way} small letter no-print`}>
        <span>
          <Link href={`/queue/${claimId}`} data-key="b">
            Claim {claim.reference} <KeyHint sign="B" />
          </Link>{" "}
          / verdict
        </span>
        <Keys />
      </div>
      <TitleBlock
        facts={[
          { name: "Claim", value: claim.reference },
          { name: "Stage", value: STAGE_NAMES[claim.stage] },
          { name: "Kit", value: claim.kit ?? "not known" },
          { name: "Vehicle", value: claim.vehicle ?? "not known" },
        ]}
      />
      <div className={css.verdict}>
        <div>
          <h1>{claim.account?.headline ?? "Nothing has been ranked yet"}</h1>
          {transition(claim.stage, "decide").ok ? null : (
            <p className="note">
              This claim is {STAGE_NAMES[claim.stage]}{claim.verdicts[0] && claim.verdicts[0].supersededAt === null ? `, by ${claim.verdicts[0].by}` : ""}. <Link href={`/queue/${claimId}#verdict`}>See the verdict</Link>
            </p>
          )}
          {matter.waiting ? (
            <p className="note">
              A verdict of {matter.waiting.by} waits for a second person. <Link href={`/queue/${claimId}#verdict`}>Look at it</Link>
            </p>
          ) : null}
          {matter.objection && !matter.mayDecideAgain ? <p className="note">You gave the verdict that is objected to: somebody else answers the objection, or an administrator.</p> : null}
          {matter.objection?.words ? <p className={sheet.objection} lang={claim.customer?.language}>{matter.objection.words}</p> : null}
          {matter.sentBack ? (
            <p className="note">
              <strong>Sent back by {matter.sentBack.lookedAtBy}:</strong> {matter.sentBack.note}
            </p>
          ) : null}
          <p className={`${sheet.below} small letter no-print`}>
            Below the form: <a href="#rests-on">what each remedy costs, the warranty terms, what was found</a>
          </p>
          <VerdictForm
            action={decide.bind(null, claimId, claim.timeZone)}
            causes={causes.map(({ code, name, attribution }) => {
              const found = ranked[placeOf(code)];
              return { code, name, liesWith: ATTRIBUTION_WORDS[attribution], percent: found ? percent(found.probability) : null };
            })}
            proposed={claim.proposed}
            remedy={matter.remedy}
            currency={matter.currency}
            photos={claim.photos.map(({ id, subject, takenBy }) => ({ id, words: `${subjectInWords(subject)}, by ${OBSERVER_WORDS[takenBy]}` }))}
            claimId={claimId}
            language={claim.customer?.language}
            answersObjection={matter.objection !== null}
            version={claim.version}
            rankingId={claim.kept?.id ?? null}
          />
        </div>
        <aside className="sheet no-print" id="rests-on" aria-label="What it rests on">
          <RemedyCosts costs={matter.costs} proposed={matter.remedy} currency={matter.currency} secondPersonAbove={matter.secondPersonAbove} />
          <WarrantyAccount actor={actor} claimId={claimId} />
          <h2>What was found</h2>
          <ul className={css.findings}>
            {claim.findings.map(({ id, part, name, answer, observer }) => (
              <li key={id}>
                <Balloon part={part} />
                <span>
                  <strong>{name}:</strong> {answer} <span className="small soft">{OBSERVER_WORDS[observer]}</span>
                </span>
              </li>
            ))}
          </ul>
          <h2>What explains it</h2>
          <table className={css.causes}>
            <tbody>
              {ranked.slice(0, 5).map(({ code, attribution, probability, part }) => (
                <tr key={code}>
                  <td>
                    <Balloon part={part} />
                  </td>
                  <td>{claim.edition.causes.find((cause) => cause.code === code)?.name}</td>
                  <td className={css.measure}>
                    <Scale share={probability} attribution={attribution} />
                  </td>
                  <td className="num">{percent(probability)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </aside>
      </div>
    </DeskShell>
  );
}
