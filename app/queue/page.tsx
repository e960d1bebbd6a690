import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { Balloon } from "@/app/_components/balloon";
import { percent, Scale } from "@/app/_components/scale";
import { DeskShell } from "@/app/_desk/desk-shell";
import type { StaffActor } from "@/lib/access/actors";
import { requireStaff } from "@/lib/access/staff";
import { may } from "@/lib/domain/claims/permissions";
import type { QueueSort } from "@/lib/domain/claims/queue-order";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { queueAddress, type QueueFilter, readQueueFilter } from "@/lib/inputs/queue-filter";
import { loadQueue, type Queue, type QueueRow } from "@/lib/operations/load-queue";
import { loadSecondOpinions } from "@/lib/operations/load-second-opinions";
import { Keys } from "./keys";
import css from "./queue.module.css";
import { QueueFilterForm, SORT_NAMES } from "./queue-filter";
import { inZone } from "./times";

export const metadata: Metadata = { title: "Queue" };

export default async function QueuePage({ searchParams }: { searchParams: Promise<Record<string, string | string[] | undefined>> }) {
  const filter = readQueueFilter(await searchParams);
  const actor = await requireStaff(queueAddress(filter, { page: filter.page }));
  const queue = await loadQueue(actor, filter);
  if (!queue.ok) forbidden();
  const { time } = inZone(queue.timeZone);
  return (
    <DeskShell actor={actor} here="Queue">
      <div className={css.head}>
        <h1>{heading(queue)}</h1>
        <Keys />
      </div>
      <SecondOpinions actor={actor} />
      <QueueFilterForm filter={filter} kits={queue.kits} />
      <p className="small soft" role="status">
        {queue.total === 1 ? "1 claim shown" : `${queue.total.toLocaleString("en")} claims shown`}{filter.q && !filter.stage ? ", of every stage" : ""}, in the order of {SORT_NAMES[filter.sort]}. Times are those of {queue.timeZone.replace("_", " ")}.
      </p>
      {queue.rows.length === 0 ? (
        <p className="note">
          No claim is like that. <Link href="/queue">Show all that wait</Link>
        </p>
      ) : (
        <table className={css.list}>
          <thead>
            <tr>
              <th scope="col">Claim</th>
              <SortHead filter={filter} sort="risk" words="Why here" />
              <th scope="col">Kit on vehicle</th>
              <SortHead filter={filter} sort="leader" words="Leader" />
              <SortHead filter={filter} sort="unit" words="Unit at fault" isNumber />
              <SortHead filter={filter} sort="promised" words="Promised" />
              <th scope="col">In hand of</th>
            </tr>
          </thead>
          <tbody>
            {queue.rows.map((row) => (
              <Row key={row.id} row={row} promised={time(row.promisedAt)} />
            ))}
          </tbody>
        </table>
      )}
      <Pages filter={filter} pages={queue.pages} />
    </DeskShell>
  );
}

/** What waits beside the queue, for whoever may decide. */
async function SecondOpinions({ actor }: { actor: StaffActor }) {
  const loaded = may(actor.role, "confirm a verdict") ? await loadSecondOpinions(actor) : null;
  if (!loaded?.ok || loaded.claims.length === 0) return null;
  return (
    <p className={`${css.beside} small`}>
      <Link href="/queue/second-opinions">Second opinions wait: {loaded.claims.length}</Link>
    </p>
  );
}

function heading({ waiting, late, mustStandStill }: Queue): string {
  if (waiting === 0) return "No claim waits";
  const claims = waiting === 1 ? "1 claim waits" : `${waiting.toLocaleString("en")} claims wait`;
  const ofThem = [...(late > 0 ? [`${late} of them ${late === 1 ? "is" : "are"} late`] : []), ...(mustStandStill > 0 ? [`${mustStandStill} ${mustStandStill === 1 ? "engine" : "engines"} must stand still`] : [])];
  return ofThem.length > 0 ? `${claims}, ${ofThem.join(", ")}` : `${claims}, none is late`;
}

function SortHead({ filter, sort, words, isNumber = false }: { filter: QueueFilter; sort: QueueSort; words: string; isNumber?: boolean }) {
  const isCurrent = filter.sort === sort;
  return (
    <th scope="col" className={isNumber ? "num" : ""} {...(isCurrent ? { "aria-sort": "other" as const } : {})}>
      <Link href={queueAddress(filter, { sort })} title={`Order by ${SORT_NAMES[sort]}`} {...(isCurrent ? { "aria-current": "true" as const } : {})}>
        {words}
      </Link>
    </th>
  );
}

function Row({ row, promised }: { row: QueueRow; promised: string }) {
  const { leader } = row;
  return (
    <tr>
      <td data-name="Claim">
        <span>
          <Link className={css.reference} href={`/queue/${row.id}`}>
            {row.reference}
          </Link>
          <br />
          <span className="small soft">{STAGE_NAMES[row.stage]}</span>
        </span>
      </td>
      <td data-name="Why here">
        <span>
          {row.stopsEngine ? <span className={css.danger}>engine must stand still</span> : null}
          {row.wrote ? <span className={css.late}>{row.wrote}</span> : null}
          <span className={row.isLate ? css.late : css.reason}>{row.reason}</span>
        </span>
      </td>
      <td data-name="Kit, vehicle">
        <span>
          {row.kit ?? "kit not known"}
          <br />
          <span className="small soft">{row.vehicle ?? "vehicle not known"}</span>
        </span>
      </td>
      <td data-name="Leader" className={css.leader}>
        {leader ? (
          <span>
            <span className="small">
              <Balloon part={leader.part} /> {leader.name}
            </span>
            <span className={css.measure}>
              <Scale share={leader.probability} attribution={leader.attribution} />
              <span className="num">{percent(leader.probability)}</span>
            </span>
          </span>
        ) : (
          "what was found does not fit together"
        )}
      </td>
      <td data-name="Unit at fault" className="num">
        {row.unitDefective === null ? "–" : percent(row.unitDefective)}
      </td>
      <td data-name="Promised">{promised}</td>
      <td data-name="In hand of">{row.assignedTo ? row.assignedTo.isMe ? <strong>me</strong> : row.assignedTo.name : <span className="soft">nobody</span>}</td>
    </tr>
  );
}

function Pages({ filter, pages }: { filter: QueueFilter; pages: number }) {
  if (pages === 1) return null;
  return (
    <nav className={`${css.pages} letter no-print`} aria-label="Pages">
      {filter.page > 1 ? <Link href={queueAddress(filter, { page: filter.page - 1 })}>Page before</Link> : null}
      <span>
        Page {filter.page} of {pages}
      </span>
      {filter.page < pages ? <Link href={queueAddress(filter, { page: filter.page + 1 })}>Next page</Link> : null}
    </nav>
  );
}
