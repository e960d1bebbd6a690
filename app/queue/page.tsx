import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, redirect } from "next/navigation";
import { Balloon } from "@/app/_components/balloon";
import { percent, Scale } from "@/app/_components/scale";
import { DeskShell } from "@/app/_desk/desk-shell";
import type { StaffActor } from "@/lib/access/actors";
import { requireStaff } from "@/lib/access/staff";
import { may } from "@/lib/domain/claims/permissions";
import type { QueueSort } from "@/lib/domain/claims/queue-order";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { firstValues } from "@/lib/inputs/query";
import { claimAddress, queryOf, queueAddress, type QueueFilter, readQueueFilter } from "@/lib/inputs/queue-filter";
import { SEVERAL_ACTS } from "@/lib/inputs/several-claims";
import { loadQueue, type Queue, type QueueRow } from "@/lib/operations/load-queue";
import { loadSecondOpinions } from "@/lib/operations/load-second-opinions";
import { KeyHint, Keys } from "./keys";
import css from "./queue.module.css";
import { QueueFilterForm, SORT_NAMES } from "./queue-filter";
import { RememberView } from "./remember-view";
import { SearchForm } from "./search/search-form";
import { SEVERAL_WORDS } from "./several/words";
import { inZone } from "./times";
import { Views } from "./views";

export const metadata: Metadata = { title: "Queue" };

export default async function QueuePage({ searchParams }: { searchParams: Promise<Record<string, string | string[] | undefined>> }) {
  const query = await searchParams;
  const { q } = firstValues(query);
  if (q) redirect(`/queue/search?${new URLSearchParams({ q })}`);
  const filter = readQueueFilter(query);
  const actor = await requireStaff(queueAddress(filter, { page: filter.page }));
  const queue = await loadQueue(actor, filter);
  if (!queue.ok) forbidden();
  const { time } = inZone(queue.timeZone);
  const view = queryOf({ ...filter, page: 1 });
  return (
    <DeskShell actor={actor} here="Queue">
      <div className={css.head}>
        <h1>{heading(queue)}</h1>
        <div className={`${css.ways} no-print`}>
          {may(actor.role, "file for a caller") ? (
            <Link href="/queue/new" data-key="c">
              Take down a call <KeyHint sign="C" />
            </Link>
          ) : null}
          <Keys />
        </div>
      </div>
      <RememberView query={view} />
      <SecondOpinions actor={actor} />
      <SearchForm />
      <Views filter={filter} filters={queue.filters} />
      <QueueFilterForm key={view} filter={filter} kits={queue.kits} />
      <p className="small soft" role="status">
        {queue.total === 1 ? "1 claim shown" : `${queue.total.toLocaleString("en")} claims shown`}, in the order of {SORT_NAMES[filter.sort]}. Times are those of {queue.timeZone.replace("_", " ")}.
      </p>
      {queue.rows.length === 0 ? (
        <p className="note">
          No claim is like that. <Link href="/queue">Show all that wait</Link>
        </p>
      ) : (
        <form action="/queue/several" className={css.several}>
          <input type="hidden" name="view" value={view} />
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
                <Row key={row.id} row={row} filter={filter} promised={time(row.promisedAt)} lapses={row.lapsesAt && time(row.lapsesAt)} />
              ))}
            </tbody>
          </table>
          <p className={`${css.acts} no-print`}>
            <label>
              With those ticked <KeyHint sign="A" />{" "}
              <select name="act" data-key="a">
                {SEVERAL_ACTS.map((act) => (
                  <option key={act} value={act}>
                    {SEVERAL_WORDS[act].choice}
                  </option>
                ))}
              </select>
            </label>
            <button type="submit" className="button tight plain">
              See what it does first
            </button>
          </p>
        </form>
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

function Row({ row, filter, promised, lapses }: { row: QueueRow; filter: QueueFilter; promised: string; lapses: string | null }) {
  const { leader } = row;
  return (
    <tr data-row="">
      <td data-name="Claim">
        <span className={css.name}>
          <input type="checkbox" name="claim" value={row.id} aria-label={`Tick ${row.reference}`} className="no-print" />
          <span>
            <Link className={css.reference} href={claimAddress(row.id, filter)}>
              {row.reference}
            </Link>
            <br />
            <span className="small soft">{STAGE_NAMES[row.stage]}</span>
            {row.others.length > 0 ? <strong className={`small ${css.others}`}>open at {row.others.join(", ")}</strong> : null}
          </span>
        </span>
      </td>
      <td data-name="Why here">
        <span>
          {row.stopsEngine ? <span className={css.danger}>engine must stand still</span> : null}
          {row.wrote ? <span className={css.late}>{row.wrote}</span> : null}
          <span className={row.isLate ? css.late : css.reason}>{row.reason}</span>
          {row.secondLook ? <span className={css.late}>{row.secondLook}</span> : null}
          {row.sameSerial ? <span className={css.late}>{row.sameSerial}</span> : null}
          {row.call ? <span className={css.late}>{row.call}</span> : null}
          {lapses ? <span className={css.reason}>lapses {lapses} unless answered</span> : null}
          {row.worth ? <span className={`${css.reason} small soft`}>{row.worth}</span> : null}
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
      <td data-name="In hand of">
        <span>
          {row.assignedTo ? row.assignedTo.isMe ? <strong>me</strong> : row.assignedTo.name : <span className="soft">nobody</span>}
          {row.note ? (
            <span className={`${css.reason} small`}>
              {`${row.note.from}: \u201c${row.note.words}\u201d`}
            </span>
          ) : null}
        </span>
      </td>
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
