import { randomUUID } from "node:crypto";
import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { loadOpenCalls } from "@/lib/operations/take-down-call";
import { KeyHint, Keys } from "../keys";
import css from "./call.module.css";
import { StartCallForm } from "./start-call-form";

export const metadata: Metadata = { title: "Take down a call" };

/** Where staff begin a complaint for somebody on the telephone, or go on with one. */
export default async function NewCallPage() {
  const actor = await requireStaff("/queue/new");
  const open = await loadOpenCalls(actor);
  if (!open.ok) forbidden();
  return (
    <DeskShell actor={actor} here="Queue">
      <div className={`${css.top} small letter no-print`}>
        <Link href="/queue" data-key="q">
          Queue <KeyHint sign="Q" />
        </Link>
        <Keys />
      </div>
      <h1>Take down a complaint for a caller</h1>
      <p className="soft">You read out the same questions that the form asks, all on one page, the ones that tell most first. What the caller sees counts as seen by the customer; that you took it down stands beside it.</p>
      <StartCallForm filingKey={randomUUID()} />
      {open.calls.length > 0 ? (
        <section className={`sheet ${css.open}`}>
          <h2>{open.calls.length === 1 ? "One call is not filed yet" : `${open.calls.length} calls are not filed yet`}</h2>
          <ul>
            {open.calls.map(({ id, about }) => (
              <li key={id}>
                <Link href={`/queue/new/${id}`}>{about ?? "nothing known of the caller yet"}</Link>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </DeskShell>
  );
}
