import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { loadMarkedPhoto } from "@/lib/operations/load-marked-photo";
import { KeyHint, Keys } from "../../../keys";
import { inZone } from "../../../times";
import { OBSERVER_WORDS } from "../../../words";
import { ActForm } from "../../act-form";
import { doneInWords } from "../../done";
import { subjectInWords } from "../../photo-strip";
import { putMark, takeMarkAway } from "./actions";
import { Magnifier } from "./magnifier";
import css from "./look.module.css";

export const metadata: Metadata = { title: "Photo" };

/** One photo of a claim as large as the window, with what staff marked on it. */
export default async function LookPage({ params, searchParams }: { params: Promise<{ claimId: string; photoId: string }>; searchParams: Promise<{ done?: string }> }) {
  const [{ claimId, photoId }, query] = await Promise.all([params, searchParams]);
  if (!z.guid().safeParse(claimId).success || !z.guid().safeParse(photoId).success) notFound();
  const actor = await requireStaff(`/queue/${claimId}/look/${photoId}`);
  const loaded = await loadMarkedPhoto(actor, claimId, photoId);
  if (!loaded.ok) return loaded.reason === "not-allowed" ? forbidden() : notFound();
  const { photo, place, of, before, after, mayMark, removable } = loaded;
  const zone = inZone(loaded.timeZone);
  const done = doneInWords(query.done);
  const subject = subjectInWords(photo.subject);
  const neighbour = (id: string, key: string, words: string) => (
    <Link href={`/queue/${claimId}/look/${id}`} data-key={key}>
      {words} <KeyHint sign={key.toUpperCase()} />
    </Link>
  );

  return (
    <DeskShell actor={actor} here="Queue">
      <div className={`${css.way} small letter no-print`}>
        <Link href={`/queue/${claimId}#photos`} data-key="c">
          Claim {loaded.reference} <KeyHint sign="C" />
        </Link>
        <span>
          {before ? neighbour(before, "p", "Photo before") : null}
          {after ? neighbour(after, "n", "Next photo") : null}
          <Keys />
        </span>
      </div>
      {done ? (
        <p className="note" role="status">
          <strong>{done}</strong>
        </p>
      ) : null}
      <h1 className={css.heading}>
        Photo {place} of {of}: {subject}
        {photo.marks.length > 0 ? <span className="soft">, {photo.marks.length === 1 ? "one mark" : `${photo.marks.length} marks`}</span> : null}
      </h1>
      <div className={css.bench}>
        <Magnifier
          src={`/queue/${claimId}/photos/${photoId}`}
          alt={`${place} of ${of}: ${subject}, by ${OBSERVER_WORDS[photo.takenBy]}`}
          width={photo.width}
          height={photo.height}
          marks={photo.marks.map(({ id, number, x, y, word }) => ({ id, number, x, y, word }))}
          action={mayMark ? putMark.bind(null, claimId, photoId) : null}
        />
        <section className="sheet">
          <h2>{photo.marks.length === 0 ? "Nothing is marked yet" : "What is marked"}</h2>
          <ol className={css.marks}>
            {photo.marks.map(({ id, number, word, madeBy, madeAt, x, y }) => (
              <li key={id} value={number}>
                <strong>{word}</strong>
                <br />
                <span className="small soft">
                  {Math.round(x * 100)} % from the left, {Math.round(y * 100)} % from the top; {madeBy.name}, {zone.time(madeAt)}
                </span>
                {removable.includes(id) ? <ActForm action={takeMarkAway.bind(null, claimId, photoId, id)} label="take it away" of={`mark ${number}`} isPlain className="no-print" /> : null}
              </li>
            ))}
          </ol>
          <p className="small soft">
            By {OBSERVER_WORDS[photo.takenBy]}, {zone.time(photo.createdAt)}. {photo.width} by {photo.height} points.
          </p>
        </section>
      </div>
    </DeskShell>
  );
}
