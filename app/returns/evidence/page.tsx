import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { scanPath } from "@/lib/domain/claims/scanned-number";
import { loadEvidence } from "@/lib/operations/decide-disposition";
import { dayIn } from "../return-words";
import styles from "./evidence.module.css";

export const metadata: Metadata = { title: "Evidence" };

type Held = Extract<Awaited<ReturnType<typeof loadEvidence>>, { ok: true }>["held"];

export default async function EvidencePage() {
  const actor = await requireStaff("/returns/evidence");
  const loaded = await loadEvidence(actor);
  if (!loaded.ok) forbidden();
  const { held, count, past, mayDecide } = loaded;
  return (
    <DeskShell actor={actor} here="Returns">
      <p className="no-print">
        <Link href="/returns">All returns</Link>
      </p>
      <h1>{heading(count, past)}</h1>
      {held.length < count ? <p className="soft">The {held.length} whose day comes first.</p> : null}
      <Units title="Their day has passed" held={held.filter(({ isPast }) => isPast)} mayDecide={mayDecide} />
      <Units title="Still to be kept" held={held.filter(({ isPast }) => !isPast)} mayDecide={mayDecide} />
    </DeskShell>
  );
}

function heading(count: number, past: number): string {
  if (count === 0) return "No unit is held as evidence";
  const all = count === 1 ? "One unit is held as evidence" : `${count} units are held as evidence`;
  if (past === 0) return all;
  return past === count ? `${all}, past the day it was kept for` : `${all}, ${past} of them past their day`;
}

function Units({ title, held, mayDecide }: { title: string; held: Held; mayDecide: boolean }) {
  if (held.length === 0) return null;
  return (
    <section className={`sheet ${styles.part}`}>
      <h2>{title}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by key. */}
      <section className="table-region" aria-label={`${title}, to be scrolled`} tabIndex={0}>
        <table className={styles.units}>
          <thead>
            <tr>
              <th scope="col">Unit</th>
              <th scope="col">Where it lies</th>
              <th scope="col">Kept until</th>
              <th scope="col">Claim</th>
              {mayDecide ? <th scope="col">Next</th> : null}
            </tr>
          </thead>
          <tbody>
            {held.map(({ number, serial, place, keepUntil, claimId, reference }) => (
              <tr key={number}>
                <th scope="row">
                  <Link href={scanPath(number)}>
                    {number}
                    <br />
                    <span className="small soft">serial {serial ?? "not known"}</span>
                  </Link>
                </th>
                <td>{place ?? <span className="soft">nobody wrote down where</span>}</td>
                <td>{keepUntil ? dayIn("UTC", keepUntil) : ""}</td>
                <td>
                  <Link href={`/queue/${claimId}`} className="num">
                    {reference}
                  </Link>
                </td>
                {mayDecide ? (
                  <td>
                    <Link href={`/queue/${claimId}/bench-inspection/disposition`}>
                      Decide<span className="visually-hidden"> about {number}</span>
                    </Link>
                  </td>
                ) : null}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}
