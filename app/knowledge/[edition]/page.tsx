import type { Metadata } from "next";
import Link from "next/link";
import { Balloon } from "@/app/_components/balloon";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { inZone } from "@/app/queue/times";
import { ATTRIBUTION_WORDS, COST_WORDS } from "@/app/queue/words";
import { EDITION_ACTS } from "@/lib/domain/diagnosis/editions";
import type { Cause, Edition, FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { OIL_PATH_PARTS } from "@/lib/domain/diagnosis/oil-path";
import { sourcesOf } from "@/lib/domain/diagnosis/provenance-words";
import { type KnowledgeFilter, readKnowledgeFilter, suits } from "@/lib/inputs/knowledge-filter";
import type { EditionShown } from "@/lib/operations/load-knowledge";
import { askForDryRunHere, openDraftHere } from "../actions";
import { Changes } from "../changes";
import { DecideForm } from "../decide-form";
import { Ground } from "../figure";
import css from "../knowledge.module.css";
import { readEditionAt } from "../read-edition";
import { TrialList } from "../trial-list";
import { ACT_WORDS, ORIGIN_NAMES, perThousand, STATE_NAMES, WHO_LOOKS } from "../words";

export const metadata: Metadata = { title: "Edition" };

const SAID: Readonly<Record<string, string>> = {
  proposed: "Proposed. It ranks nothing until it is put in force: try it on the stored claims first.",
  promoted: "In force from now on, everywhere. Each claim is ranked with it at its next finding.",
  discarded: "Discarded. It stays here to be read.",
  "in-force": "It is in force: there is nothing to compare it with.",
  "runs-already": "A dry run waits or runs already.",
};

export default async function EditionPage({ params, searchParams }: { params: Promise<{ edition: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }) {
  const [{ edition: given }, query] = await Promise.all([params, searchParams]);
  const { actor, shown } = await readEditionAt(given);
  const { row, edition, inForce, diff, trials, mayChange, timeZone } = shown;
  const { time } = inZone(timeZone);
  const filter = readKnowledgeFilter(query);
  const said = typeof query.said === "string" ? SAID[query.said] : undefined;
  const isProposed = row.state === "proposed";
  return (
    <DeskShell actor={actor} here="Knowledge">
      <h1>{headline(shown)}</h1>
      {said ? (
        <p className="note" role="status">
          <strong>{said}</strong>
        </p>
      ) : null}
      <TitleBlock
        facts={[
          { name: "Edition", value: `${row.number}. ${row.name}` },
          { name: "State", value: STATE_NAMES[row.state] },
          { name: "Comes from", value: row.basisNumber === null ? ORIGIN_NAMES[row.origin] : `${ORIGIN_NAMES[row.origin]}, from edition ${row.basisNumber}` },
          { name: "Proposed", value: row.origin === "shipped" ? "with the program" : `${row.proposedBy?.name ?? "by the program"}, ${time(row.createdAt)}` },
          { name: "In force since", value: row.promotedAt ? time(row.promotedAt) : "never" },
        ]}
      />
      <div className={css.sheets}>
        {row.why ? (
          <section className="sheet" aria-labelledby="why">
            <h2 id="why">Why</h2>
            <p className={css.narrow}>{row.why}</p>
          </section>
        ) : null}
        {row.basisNumber === null ? null : (
          <section className="sheet" aria-labelledby="changes">
            <h2 id="changes">What it changes of edition {row.basisNumber}</h2>
            <Changes diff={diff} edition={edition} />
          </section>
        )}
        {isProposed || trials.length > 0 ? (
          <section className="sheet" aria-labelledby="trials">
            <h2 id="trials">Tried on what is stored</h2>
            <TrialList trials={trials} time={time} />
            {mayChange && isProposed ? (
              <form action={askForDryRunHere.bind(null, row.number)} className="no-print">
                <button type="submit" className="button tight plain">
                  Rank the stored claims with it, beside edition {inForce}
                </button>
              </form>
            ) : null}
          </section>
        ) : null}
        {mayChange && isProposed ? (
          <section className="sheet" aria-labelledby="decide">
            <h2 id="decide">Put it in force, or discard it</h2>
            <DecideForm number={row.number} basis={row.basisNumber} inForce={inForce} />
          </section>
        ) : null}
        <section className="sheet" aria-labelledby="causes">
          <h2 id="causes">Causes, by how often a fitted unit has them</h2>
          <FilterForm filter={filter} number={row.number} />
          <Causes edition={edition} filter={filter} />
        </section>
        <section className="sheet" aria-labelledby="findings">
          <h2 id="findings">Findings</h2>
          <Findings edition={edition} filter={filter} />
        </section>
        <div className={css.pair}>
          <section className="sheet" aria-labelledby="sources">
            <h2 id="sources">Where its figures come from</h2>
            <Sources edition={edition} />
          </section>
          <section className="sheet" aria-labelledby="story">
            <h2 id="story">Its story</h2>
            <Story shown={shown} time={time} />
          </section>
        </div>
        <div className={`${css.acts} no-print`}>
          <a className="button tight plain" href={`/knowledge/${row.number}/file`} download>
            Take it as a file
          </a>
          {mayChange ? (
            <form action={openDraftHere.bind(null, row.number)}>
              <button type="submit" className="button tight plain">
                Change it into a new edition
              </button>
            </form>
          ) : null}
        </div>
      </div>
    </DeskShell>
  );
}

function headline({ row, inForce, diff, edition }: EditionShown): string {
  const subjects = diff.length === 1 ? "one thing" : `${diff.length} things`;
  if (row.state === "in force") return `Edition ${row.number} ranks every claim: ${edition.causes.length} causes, ${edition.findings.length} findings`;
  if (row.state === "proposed" && row.basisNumber === null) return `Edition ${row.number} came with the program and waits to be put in force`;
  if (row.state === "proposed") return `Edition ${row.number} would change ${subjects} of edition ${row.basisNumber}`;
  if (row.state === "discarded") return `Edition ${row.number} was discarded`;
  return `Edition ${row.number} was in force before edition ${inForce}`;
}

function FilterForm({ filter, number }: { filter: KnowledgeFilter; number: number }) {
  return (
    <search>
      <form className={`${css.filter} no-print`} action={`/knowledge/${number}`}>
        <label>
          Word or code
          <input name="q" type="search" defaultValue={filter.q ?? ""} maxLength={100} />
        </label>
        <label>
          Part
          <select name="part" defaultValue={filter.part ?? ""}>
            <option value="">all</option>
            {Object.entries(OIL_PATH_PARTS).map(([part, { name }]) => (
              <option key={part} value={part}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <label>
          Cause lies with
          <select name="attribution" defaultValue={filter.attribution ?? ""}>
            <option value="">any</option>
            {ATTRIBUTIONS.map((attribution) => (
              <option key={attribution} value={attribution}>
                {ATTRIBUTION_WORDS[attribution]}
              </option>
            ))}
          </select>
        </label>
        <button type="submit" className="button tight">
          Show
        </button>
      </form>
    </search>
  );
}

function Causes({ edition, filter }: { edition: Edition; filter: KnowledgeFilter }) {
  const causes = edition.causes.filter((cause) => suits(cause, filter) && (!filter.attribution || cause.attribution === filter.attribution)).sort((a, b) => b.base.value - a.base.value);
  const largest = Math.max(...edition.causes.map(({ base }) => base.value));
  if (causes.length === 0) return <p>No cause is like that.</p>;
  return (
    <table className={css.list}>
      <thead>
        <tr>
          <th scope="col">Cause</th>
          <th scope="col">Lies with</th>
          <th scope="col" colSpan={2}>
            Fitted units that have it, of 1,000
          </th>
          <th scope="col">Comes from</th>
        </tr>
      </thead>
      <tbody>
        {causes.map((cause) => (
          <CauseRow key={cause.code} cause={cause} edition={edition} largest={largest} />
        ))}
      </tbody>
    </table>
  );
}

function CauseRow({ cause: { code, name, part, attribution, originIsOpen, base }, edition, largest }: { cause: Cause; edition: Edition; largest: number }) {
  return (
    <tr>
      <th scope="row">
        <Balloon part={part} /> <span className={css.code}>{code}</span> <Link href={`/knowledge/${edition.number}/causes/${code}`}>{name}</Link>
      </th>
      <td data-name="Lies with">
        {ATTRIBUTION_WORDS[attribution]}
        {originIsOpen ? " or kit" : ""}
      </td>
      <td className={css.measure}>
        <svg className={css.bar} aria-hidden="true" focusable="false">
          <rect x="0" y="1" height="10" width={`${(base.value / largest) * 100}%`} className={`fill-${attribution}`} />
        </svg>
      </td>
      <td className="num" data-name="Of 1,000">
        {perThousand(base.value)}
      </td>
      <td>
        <Ground provenance={base.provenance} />
      </td>
    </tr>
  );
}

function Findings({ edition, filter }: { edition: Edition; filter: KnowledgeFilter }) {
  const findings = edition.findings.filter((finding) => suits(finding, filter));
  if (findings.length === 0) return <p>No finding is like that.</p>;
  return (
    <table className={css.list}>
      <thead>
        <tr>
          <th scope="col">Finding</th>
          <th scope="col">Who may look</th>
          <th scope="col" className="num">
            Minutes
          </th>
          <th scope="col">Cost</th>
          <th scope="col">Speaks of</th>
        </tr>
      </thead>
      <tbody>
        {findings.map((finding) => (
          <tr key={finding.code}>
            <th scope="row">
              <Balloon part={finding.part} /> <span className={css.code}>{finding.code}</span> <Link href={`/knowledge/${edition.number}/findings/${finding.code}`}>{finding.name}</Link>
            </th>
            <td data-name="Who may look">{finding.observers.map((observer) => WHO_LOOKS[observer]).join(", ")}</td>
            <td className="num" data-name="Minutes">
              {finding.minutes}
            </td>
            <td data-name="Cost">{COST_WORDS[finding.cost]}</td>
            <td className="small" data-name="Speaks of">
              {causesOf(finding).join(", ")}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function causesOf(finding: FindingDefinition): string[] {
  const named = finding.kind === "circumstance" ? [...finding.shifts, ...finding.gates] : finding.links;
  return [...new Set(named.map(({ cause }) => cause))].sort();
}

function Sources({ edition }: { edition: Edition }) {
  return (
    <table className={css.list}>
      <thead>
        <tr>
          <th scope="col">Source</th>
          <th scope="col" className="num">
            Figures
          </th>
        </tr>
      </thead>
      <tbody>
        {sourcesOf(edition).map(({ words, figures }) => (
          <tr key={words}>
            <td>{words}</td>
            <td className="num" data-name="Figures">
              {figures.toLocaleString("en")}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Story({ shown: { story, row }, time }: { shown: EditionShown; time: (at: Date) => string }) {
  if (story.length === 0) return <p>{row.origin === "shipped" ? (row.promotedAt ? "It came with the program and went in force when it was set up." : "It came with the program.") : "Nothing was done to it."}</p>;
  return (
    <ol className={css.story}>
      {story.map(({ at, action, by, detail }) => {
        const act = EDITION_ACTS.find((known) => known === action);
        return (
          <li key={`${at.toISOString()} ${action}`}>
            <span className="small soft">{time(at)}</span> {by ?? "The program"} {act ? ACT_WORDS[act] : action}
            {typeof detail.reason === "string" ? `: ${detail.reason}` : ""}
          </li>
        );
      })}
    </ol>
  );
}
