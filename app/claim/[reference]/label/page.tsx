import type { Metadata } from "next";
import Link from "next/link";
import { notFound, redirect } from "next/navigation";
import { requireCustomer } from "@/lib/access/customer";
import { LABEL_PAPERS } from "@/lib/domain/claims/return-label";
import { wordsIn } from "@/lib/messages/words";
import { loadMyReturn } from "@/lib/operations/load-my-return";
import css from "../../return-label.module.css";
import { ReturnLabelDrawing } from "../../return-label-drawing";
import { PrintButton } from "./print-button";

export async function generateMetadata({ params }: { params: Promise<{ reference: string }> }): Promise<Metadata> {
  const actor = await requireCustomer((await params).reference);
  const returned = await loadMyReturn(actor);
  return { title: wordsIn(actor.language)("sendIn.label.title", { number: returned?.number ?? "" }) };
}

/** The label on a page to print, with how to pack the unit below it. */
export default async function LabelPage({ params }: { params: Promise<{ reference: string }> }) {
  const actor = await requireCustomer((await params).reference);
  const returned = await loadMyReturn(actor);
  if (!returned) notFound();
  if (!returned.label) redirect(`/claim/${actor.reference}#send-in`);
  const words = wordsIn(actor.language);
  const papers = { a4: words("sendIn.label.a4"), a6: words("sendIn.label.a6"), roll: words("sendIn.label.roll") };
  const title = words("sendIn.label.title", { number: returned.number });
  return (
    <main id="main" className="page">
      <div className="no-print">
        <p>
          <Link href={`/claim/${actor.reference}`}>{words("sendIn.label.back")}</Link>
        </p>
        <h1>{title}</h1>
        <PrintButton label={words("sendIn.label.print")} />
        <p>{words("sendIn.label.asPdf")}</p>
        <ul className={css.files}>
          {LABEL_PAPERS.map((paper) => (
            <li key={paper}>
              {/* A file, so no Link: it would be fetched beforehand. */}
              <a href={`/claim/${actor.reference}/label/file?paper=${paper}`}>{papers[paper]}</a>
            </li>
          ))}
        </ul>
      </div>
      <div className={css.paper}>
        <ReturnLabelDrawing
          label={returned.label}
          name={title}
          words={{ from: words("sendIn.label.from"), to: words("sendIn.label.to"), number: words("sendIn.label.number"), contents: words("sendIn.label.contents") }}
        />
      </div>
      <p className="small">{words("sendIn.label.cut")}</p>
      <ol className={css.steps}>
        {returned.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </main>
  );
}
