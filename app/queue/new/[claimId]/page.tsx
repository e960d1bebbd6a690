import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound, redirect } from "next/navigation";
import { z } from "zod";
import { Caution } from "@/app/_components/caution";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { loadCall } from "@/lib/operations/take-down-call";
import { KeyHint, Keys } from "../../keys";
import { keepCall } from "../actions";
import { CallForm } from "../call-form";
import css from "../call.module.css";

export const metadata: Metadata = { title: "A call" };

/** A complaint taken down for a caller: every question that is worth asking, on one page. */
export default async function CallPage({ params }: { params: Promise<{ claimId: string }> }) {
  const { claimId } = await params;
  if (!z.guid().safeParse(claimId).success) notFound();
  const actor = await requireStaff(`/queue/new/${claimId}`);
  const call = await loadCall(actor, claimId);
  if (!call.ok) {
    if (call.reason === "already-filed") redirect(`/queue/${claimId}`);
    return call.reason === "not-allowed" ? forbidden() : notFound();
  }
  const open = call.sections.filter(({ isAnswered }) => !isAnswered).length;
  return (
    <DeskShell actor={actor} here="Queue">
      <div className={`${css.top} small letter no-print`}>
        <Link href="/queue" data-key="q">
          Queue <KeyHint sign="Q" />
        </Link>
        <Keys />
      </div>
      <h1>{call.isReady ? "Everything worth asking is answered" : open === 1 ? "One group of questions is open" : `${open} groups of questions are open`}</h1>
      <p className="soft">
        For the caller: the reference will be <strong className="letter">{call.reference}</strong> once it is filed. What you do not know stays empty or is answered as not known.
      </p>
      {call.stop ? <Caution title={call.stop.title}>{call.stop.sentence}</Caution> : null}
      <CallForm action={keepCall.bind(null, claimId)} sections={call.sections} values={call.values} isReady={call.isReady} />
    </DeskShell>
  );
}
