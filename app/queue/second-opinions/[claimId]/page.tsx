import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { Balloon } from "@/app/_components/balloon";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { OIL_PATH_PARTS } from "@/lib/domain/diagnosis/oil-path";
import { loadBlindClaim } from "@/lib/operations/load-second-opinions";
import { Photos } from "../../[claimId]/findings";
import css from "../../[claimId]/claim.module.css";
import { ATTRIBUTION_WORDS, OBSERVER_WORDS } from "../../words";
import { giveOpinion } from "./actions";
import { OpinionForm } from "./opinion-form";
import { notAskedInWords } from "./refusals";

export const metadata: Metadata = { title: "Second opinion" };

export default async function SecondOpinionPage({ params }: { params: Promise<{ claimId: string }> }) {
  const { claimId } = await params;
  if (!z.guid().safeParse(claimId).success) notFound();
  const actor = await requireStaff(`/queue/second-opinions/${claimId}`);
  const claim = await loadBlindClaim(actor, claimId);
  if (!claim.ok && claim.reason === "not-allowed") forbidden();
  if (!claim.ok && claim.reason === "not-found") notFound();
  return (
    <DeskShell actor={actor} here="Queue">
      <p className="small letter no-print">
        <Link href="/queue">Queue</Link> / <Link href="/queue/second-opinions">second opinions</Link>
      </p>
      {claim.ok ? (
        <>
          <TitleBlock
            facts={[
              { name: "Kit", value: claim.kit ?? "not known" },
              { name: "Vehicle", value: claim.vehicle ?? "not known" },
              { name: "Run since fitted", value: claim.run ?? "not known" },
            ]}
          />
          <h1>What do you make of this?</h1>
          <div className={css.verdict}>
            <OpinionForm
              action={giveOpinion.bind(null, claim.id)}
              causes={[...claim.causes].sort((a, b) => OIL_PATH_PARTS[a.part].balloon - OIL_PATH_PARTS[b.part].balloon).map(({ code, name, part }) => ({ value: code, words: `${OIL_PATH_PARTS[part].balloon} ${name}` }))}
              attributions={ATTRIBUTIONS.map((attribution) => ({ value: attribution, words: ATTRIBUTION_WORDS[attribution] }))}
            />
            <div>
              <section className="sheet">
                <h2>What was found</h2>
                {claim.findings.length === 0 ? <p>Nothing was kept.</p> : null}
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
              </section>
              <Photos claim={claim} />
            </div>
          </div>
        </>
      ) : (
        <>
          <h1>No second opinion is asked for here</h1>
          <p>
            {notAskedInWords(claim)}. {claim.reason === "given-already" ? <Link href={`/queue/${claimId}#verdict`}>See it beside the verdict</Link> : <Link href="/queue/second-opinions">See which claims wait for yours</Link>}
          </p>
        </>
      )}
    </DeskShell>
  );
}
