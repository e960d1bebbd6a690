import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { ATTRIBUTION_WORDS } from "@/app/queue/words";
import { dayIn } from "@/app/returns/return-words";
import { requireStaff } from "@/lib/access/staff";
import { DISPOSITION_NAMES } from "@/lib/domain/claims/dispositions";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { loadDisposition } from "@/lib/operations/decide-disposition";
import { decideDispositionHere } from "../actions";
import styles from "../inspection.module.css";
import { DispositionForm } from "./disposition-form";

export const metadata: Metadata = { title: "What becomes of the unit" };

/** Days for which evidence is kept unless another day is chosen (judgement). */
const USUALLY_KEPT_FOR = 180;

export default async function DispositionPage({ params, searchParams }: { params: Promise<{ claimId: string }>; searchParams: Promise<QueryParameters> }) {
  const [{ claimId }, query] = await Promise.all([params, searchParams]);
  const actor = await requireStaff(`/queue/${claimId}/bench-inspection/disposition`);
  const id = z.uuid().safeParse(claimId);
  const loaded = id.success ? await loadDisposition(actor, id.data) : null;
  if (loaded && !loaded.ok && loaded.reason === "not-allowed") forbidden();
  if (!loaded?.ok || !id.success) notFound();
  const { unit, timeZone } = loaded;
  const standing = unit.dispositions.find(({ supersededAt }) => supersededAt === null);
  return (
    <DeskShell actor={actor} here="Returns">
      <p className={`small ${styles.way}`}>
        <Link href="/returns">All returns</Link> / <Link href={`/queue/${id.data}`}>claim {unit.reference}</Link>
      </p>
      <h1>{standing ? `The unit of ${unit.number} is ${DISPOSITION_NAMES[standing.kind]}` : `What becomes of the unit of ${unit.number}`}</h1>
      {firstValues(query).inspected ? (
        <p className="note" role="status">
          The inspection is kept, and the claim goes on at the desk.
        </p>
      ) : null}
      <TitleBlock
        facts={[
          { name: "Serial", value: unit.serial ?? "not known" },
          { name: "Lies at", value: unit.place ?? "nobody wrote down where" },
          ...(standing?.keepUntil ? [{ name: "Kept until", value: dayIn("UTC", standing.keepUntil) }] : []),
          ...(unit.maker ? [{ name: "Made by", value: [unit.maker.name, unit.maker.address].filter(Boolean).join(", ") }] : []),
          { name: "Inspected", value: unit.isBeingInspected ? "under way" : unit.isInspected ? "yes" : "no" },
          { name: "Verdict", value: unit.attribution ? ATTRIBUTION_WORDS[unit.attribution] : "none yet" },
        ]}
      />
      <DispositionForm action={decideDispositionHere.bind(null, id.data)} returnId={unit.returnId} seen={standing?.id ?? ""} keepUntil={usualDay()} />
      {unit.dispositions.length > 0 ? (
        <section className="sheet">
          <h2>Decided so far</h2>
          <ul>
            {unit.dispositions.map(({ id: key, kind, keepUntil, reason, decidedAt, decidedBy }) => (
              <li key={key}>
                {dayIn(timeZone, decidedAt)}, {decidedBy.name}: {DISPOSITION_NAMES[kind]}
                {keepUntil ? ` until ${dayIn("UTC", keepUntil)}` : ""}
                {reason ? `. ${reason}` : ""}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </DeskShell>
  );
}

const usualDay = () => new Date(Date.now() + USUALLY_KEPT_FOR * 86_400_000).toISOString().slice(0, 10);
