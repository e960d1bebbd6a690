import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Balloon } from "@/app/_components/balloon";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { COST_WORDS } from "@/app/queue/words";
import { cautionInWords } from "@/lib/domain/diagnosis/cautions";
import { toStaff } from "@/lib/messages/words";
import { leavesOf } from "@/lib/domain/diagnosis/edition-leaves";
import { ratiosOfLink } from "@/lib/domain/diagnosis/evidence-ratios";
import type { CauseCode, CircumstanceFinding, Edition, FindingDefinition, MeasuredFinding, Observer, SignFinding } from "@/lib/domain/diagnosis/knowledge";
import { OIL_PATH_PARTS } from "@/lib/domain/diagnosis/oil-path";
import { fieldInWords } from "../../../changes";
import { Ground, RatioMark } from "../../../figure";
import css from "../../../knowledge.module.css";
import { readEditionAt } from "../../../read-edition";
import { figure, ofHundred, ratioInWords, WHO_LOOKS } from "../../../words";

export const metadata: Metadata = { title: "Finding" };

export default async function FindingPage({ params }: { params: Promise<{ edition: string; code: string }> }) {
  const { edition: given, code } = await params;
  const { actor, shown } = await readEditionAt(given);
  const { edition } = shown;
  const finding = edition.findings.find((one) => one.code === code);
  if (!finding) notFound();
  return (
    <DeskShell actor={actor} here="Knowledge">
      <p className="small no-print">
        <Link href={`/knowledge/${edition.number}`}>Edition {edition.number}</Link>
      </p>
      <h1 className={css.title}>
        <Balloon part={finding.part} /> {headline(finding, edition)}
      </h1>
      <TitleBlock
        facts={[
          { name: "Code", value: code },
          { name: "Part", value: OIL_PATH_PARTS[finding.part].name },
          { name: "Who may look", value: finding.observers.map((observer) => WHO_LOOKS[observer]).join(", ") },
          { name: "Takes", value: `${finding.minutes} min, ${COST_WORDS[finding.cost]}` },
          { name: "Tools", value: finding.tools.join(", ") || "none" },
          { name: "Engine", value: finding.runsEngine ? "must run" : "stands still" },
        ]}
      />
      <div className={css.sheets}>
        <section className="sheet" aria-labelledby="question">
          <h2 id="question">{finding.question}</h2>
          <p className={css.narrow}>{finding.why}</p>
          <p className={css.narrow}>{finding.how}</p>
          {finding.options.length > 0 ? <p className="small">Answers: {finding.options.map(({ label }) => label).join("; ")}; or not known, which says nothing.</p> : null}
          {finding.cautions.length > 0 ? <p className="small">Cautions shown with it: {finding.cautions.map((caution) => cautionInWords(caution, toStaff).title.toLowerCase()).join("; ")}.</p> : null}
        </section>
        {finding.kind === "circumstance" ? <Shifts finding={finding} edition={edition} /> : finding.observers.map((observer) => <Looked key={observer} finding={finding} observer={observer} edition={edition} />)}
        <Rest finding={finding} edition={edition} />
      </div>
    </DeskShell>
  );
}

const causeName = (edition: Edition, code: CauseCode) => edition.causes.find((cause) => cause.code === code)?.name ?? code;

function headline(finding: FindingDefinition, edition: Edition): string {
  if (finding.kind === "circumstance") return `${finding.name} shifts what is likely before anything is looked at`;
  const best = [...finding.links].sort((a, b) => b.strength.technician.value - a.strength.technician.value)[0];
  return best ? `${finding.name} speaks most for: ${causeName(edition, best.cause).toLowerCase()}` : `${finding.name} only sharpens another reading`;
}

/** What one observer sees, each cause with the ratios that the figures come to. */
function Looked({ finding, observer, edition }: { finding: SignFinding | MeasuredFinding; observer: Observer; edition: Edition }) {
  const background = finding.background[observer];
  const links = [...finding.links].sort((a, b) => b.strength[observer].value - a.strength[observer].value);
  const heading = `${WHO_LOOKS[observer][0]?.toUpperCase()}${WHO_LOOKS[observer].slice(1)}`;
  return (
    <section className="sheet" aria-labelledby={`looked-${observer}`}>
      <h2 id={`looked-${observer}`}>{heading}: how often it is seen</h2>
      <p>
        With none of its causes there: <strong>{ofHundred(background.value)}</strong> <Ground provenance={background.provenance} />
      </p>
      <table className={css.list}>
        <thead>
          <tr>
            <th scope="col">With this cause alone</th>
            <th scope="col" className="num">
              Seen
            </th>
            <th scope="col" colSpan={2}>
              So, seen speaks
            </th>
            <th scope="col">Looked at and not there</th>
            <th scope="col">Comes from</th>
          </tr>
        </thead>
        <tbody>
          {links.map(({ cause, strength }) => {
            const { value, provenance } = strength[observer];
            const ratios = ratiosOfLink(background.value, value);
            return (
              <tr key={cause}>
                <th scope="row">
                  <span className={css.code}>{cause}</span> <Link href={`/knowledge/${edition.number}/causes/${cause}`}>{causeName(edition, cause)}</Link>
                </th>
                <td className="num" data-name="Seen">
                  {ofHundred(value)}
                </td>
                <td className={css.measure}>
                  <RatioMark ratio={ratios.present} />
                </td>
                <td data-name="Seen speaks" className={css.words}>{ratioInWords(ratios.present)}</td>
                <td data-name="Not there" className={css.words}>{ratioInWords(ratios.absent)}</td>
                <td>
                  <Ground provenance={provenance} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

function Shifts({ finding, edition }: { finding: CircumstanceFinding; edition: Edition }) {
  return (
    <section className="sheet" aria-labelledby="shifts">
      <h2 id="shifts">What each answer does to the odds</h2>
      <table className={css.list}>
        <thead>
          <tr>
            <th scope="col">Answer</th>
            <th scope="col">Cause</th>
            <th scope="col" colSpan={2}>
              Its odds
            </th>
            <th scope="col">Comes from</th>
          </tr>
        </thead>
        <tbody>
          {finding.shifts.map(({ option, cause, oddsRatio }) => (
            <tr key={option + cause}>
              <th scope="row">{finding.options.find(({ value }) => value === option)?.label ?? option}</th>
              <td>
                <span className={css.code}>{cause}</span> <Link href={`/knowledge/${edition.number}/causes/${cause}`}>{causeName(edition, cause)}</Link>
              </td>
              <td className={css.measure}>
                <RatioMark ratio={oddsRatio.value} />
              </td>
              <td>× {figure(oddsRatio.value)}</td>
              <td>
                <Ground provenance={oddsRatio.provenance} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {finding.gates.map(({ cause, onlyUnder }) => (
        <p key={cause}>
          {causeName(edition, cause)} is possible only where the answer is: {finding.options.filter(({ value }) => onlyUnder.includes(value)).map(({ label }) => label).join(", or ")}.
        </p>
      ))}
    </section>
  );
}

const TOLD_ABOVE = /\.(code|kind|name|part|observers|minutes|cost|tools|cautions|runsEngine|question|why|how|options\..*|background\..*|links\..*|shifts\..*|gates\..*)$/;

/** All else the edition states of it: limits, how a reading is taken, what it stands for. */
function Rest({ finding, edition }: { finding: FindingDefinition; edition: Edition }) {
  const rest = [...leavesOf(edition)].filter(([field, { value }]) => field.startsWith(`findings.${finding.code}.`) && !TOLD_ABOVE.test(field) && value !== null);
  if (rest.length === 0) return null;
  return (
    <section className="sheet" aria-labelledby="rest">
      <h2 id="rest">How it is read</h2>
      <table className={css.list}>
        <tbody>
          {rest.map(([field, { value, provenance }]) => (
            <tr key={field}>
              <th scope="row">{fieldInWords(field)}</th>
              <td>{typeof value === "number" ? figure(value) : String(value)}</td>
              <td>{provenance ? <Ground provenance={provenance} /> : null}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
