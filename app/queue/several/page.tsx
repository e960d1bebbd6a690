import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { queueAddress, readQueueFilter } from "@/lib/inputs/queue-filter";
import { firstValues } from "@/lib/inputs/query";
import { severalSchema } from "@/lib/inputs/several-claims";
import { previewSeveral, type SeveralRow } from "@/lib/operations/act-on-several";
import { KeyHint, Keys } from "../keys";
import { doSeveral } from "./actions";
import css from "./several.module.css";
import { NOT_DONE_WORDS, SEVERAL_WORDS } from "./words";

export const metadata: Metadata = { title: "Several claims" };

type Query = Record<string, string | string[] | undefined>;

const isReason = (reason: string): reason is NonNullable<SeveralRow["notDone"]> => Object.hasOwn(NOT_DONE_WORDS, reason);

/** What an act will do to each of the ticked claims, before it is done; or what came of it. */
export default async function SeveralPage({ searchParams }: { searchParams: Promise<Query> }) {
  const query = await searchParams;
  const actor = await requireStaff("/queue");
  const { view = "", done } = firstValues(query);
  const { act, claim } = severalSchema.parse({ act: query.act, claim: query.claim });
  const passedOver = [query.not ?? []].flat().flatMap((entry) => {
    const [id = "", reason = ""] = entry.split(" ");
    return isReason(reason) ? [{ id, reason }] : [];
  });
  const several = await previewSeveral(actor, act, done === undefined ? claim : passedOver.map(({ id }) => id));
  if (!several.ok) forbidden();
  const back = queueAddress(readQueueFilter(Object.fromEntries(new URLSearchParams(view))));
  const words = SEVERAL_WORDS[act];
  const rows = done === undefined ? several.rows : several.rows.map((row) => ({ ...row, notDone: passedOver.find(({ id }) => id === row.id)?.reason ?? null }));
  const doable = rows.filter(({ notDone }) => notDone === null);
  return (
    <DeskShell actor={actor} here="Queue">
      <div className={`${css.top} small letter no-print`}>
        <Link href={back} data-key="q">
          Back to the queue <KeyHint sign="Q" />
        </Link>
        <Keys />
      </div>
      <div role={done === undefined ? undefined : "status"}>
        <h1>{done === undefined ? words.button(counted(doable.length)) : words.done(counted(Number(done) || 0))}</h1>
      </div>
      {rows.length > 0 ? <Rows rows={rows} does={words.does} isDone={done !== undefined} /> : done === undefined ? <p className="note">Tick claims in the queue first.</p> : null}
      {done === undefined && doable.length > 0 ? (
        <form action={doSeveral.bind(null, view)} className={css.act}>
          <input type="hidden" name="act" value={act} />
          {doable.map(({ id }) => (
            <input key={id} type="hidden" name="claim" value={id} />
          ))}
          {act === "hand_over" ? (
            <>
              <label className="field">
                Hand over to
                <select name="to" data-key="h">
                  <option value="">nobody: back for anybody</option>
                  {several.people.map(({ id, name }) => (
                    <option key={id} value={id}>
                      {name}
                    </option>
                  ))}
                </select>
              </label>
              <label className="field">
                A word to the next person (optional)
                <input name="note" maxLength={300} autoComplete="off" />
              </label>
            </>
          ) : null}
          <button type="submit" className="button" data-key="t">
            {words.button(counted(doable.length))} <KeyHint sign="T" />
          </button>
        </form>
      ) : null}
    </DeskShell>
  );
}

const counted = (claims: number) => (claims === 1 ? "1 claim" : `${claims === 0 ? "no" : claims} claims`);

function Rows({ rows, does, isDone }: { rows: readonly SeveralRow[]; does: string; isDone: boolean }) {
  return (
    <table className={`${css.rows} stacks`}>
      <caption className={isDone ? "" : "visually-hidden"}>{isDone ? "Passed over" : "What will happen to each"}</caption>
      <thead>
        <tr>
          <th scope="col">Claim</th>
          <th scope="col">Stage</th>
          <th scope="col">In hand of</th>
          <th scope="col">{isDone ? "Why not" : "What happens"}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ id, reference, stage, assignedTo, notDone }) => (
          <tr key={id}>
            <td>
              <Link href={`/queue/${id}`}>{reference}</Link>
            </td>
            <td data-name="Stage">{STAGE_NAMES[stage]}</td>
            <td data-name="In hand of">{assignedTo ?? "nobody"}</td>
            <td data-name={isDone ? "Why not" : "What happens"}>{notDone === null ? does : <strong>{isDone ? NOT_DONE_WORDS[notDone] : `passed over: ${NOT_DONE_WORDS[notDone]}`}</strong>}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
