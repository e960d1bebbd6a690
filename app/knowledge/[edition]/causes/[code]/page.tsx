import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Balloon } from "@/app/_components/balloon";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { ATTRIBUTION_WORDS } from "@/app/queue/words";
import { type Speaking, speakingOf } from "@/lib/domain/diagnosis/evidence-ratios";
import { OIL_PATH_PARTS } from "@/lib/domain/diagnosis/oil-path";
import { provenanceInWords } from "@/lib/domain/diagnosis/provenance-words";
import { Ground, RatioMark } from "../../../figure";
import css from "../../../knowledge.module.css";
import { readEditionAt } from "../../../read-edition";
import { figure, ofHundred, perThousand, ratioInWords, WHO_LOOKS } from "../../../words";

export const metadata: Metadata = { title: "Cause" };

export default async function CausePage({ params }: { params: Promise<{ edition: string; code: string }> }) {
  const { edition: given, code } = await params;
  const { actor, shown } = await readEditionAt(given);
  const { edition } = shown;
  const cause = edition.causes.find((one) => one.code === code);
  if (!cause) notFound();
  const speaking = speakingOf(code, edition);
  const gates = edition.findings.flatMap((finding) => (finding.kind === "circumstance" ? finding.gates.filter((gate) => gate.cause === code).map((gate) => ({ finding, gate })) : []));
  const experience = edition.experience.filter((row) => row.cause === code);
  const shows = speaking.filter(({ finding }) => finding.kind === "site");
  const tells = speaking.filter(({ finding }) => finding.kind !== "site");
  const strongest = tells[0];
  return (
    <DeskShell actor={actor} here="Knowledge">
      <p className="small no-print">
        <Link href={`/knowledge/${edition.number}`}>Edition {edition.number}</Link>
      </p>
      <h1 className={css.title}>
        <Balloon part={cause.part} /> {cause.name}
        {strongest ? `: ${strongest.finding.name.toLowerCase()} tells most` : ""}
      </h1>
      <TitleBlock
        facts={[
          { name: "Code", value: code },
          { name: "Lies with", value: `${ATTRIBUTION_WORDS[cause.attribution]}${cause.originIsOpen ? " or kit" : ""}` },
          { name: "Part", value: OIL_PATH_PARTS[cause.part].name },
          { name: "Fitted units that have it", value: `${perThousand(cause.base.value)} of 1,000` },
          { name: "That figure is", value: provenanceInWords(cause.base.provenance) },
        ]}
      />
      <div className={css.sheets}>
        <section className="sheet" aria-labelledby="speaks">
          <h2 id="speaks">What speaks for and against it, the strongest first</h2>
          <p className="small soft">A ratio compares units with this cause with units that have none of the finding’s causes. Filled speaks for, hollow against; a finding not looked at says nothing.</p>
          <table className={css.list}>
            <thead>
              <tr>
                <th scope="col">Finding</th>
                <th scope="col" colSpan={2}>
                  When it is so
                </th>
                <th scope="col" colSpan={2}>
                  When looked at and not so
                </th>
                <th scope="col">Comes from</th>
              </tr>
            </thead>
            <tbody>
              {tells.map((one) => (
                <SpeakingRow key={one.finding.code + one.option} speaking={one} edition={edition.number} />
              ))}
            </tbody>
          </table>
        </section>
        <section className="sheet" aria-labelledby="shows">
          <h2 id="shows">Where its oil shows</h2>
          <table className={css.list}>
            <tbody>
              {shows.map(({ finding, observer, provenance }) => (
                <tr key={finding.code}>
                  <th scope="row">
                    <Balloon part={finding.part} /> <span className={css.code}>{finding.code}</span> <Link href={`/knowledge/${edition.number}/findings/${finding.code}`}>{finding.name}</Link>
                  </th>
                  <td className="num">{finding.kind === "site" ? ofHundred(finding.links.find((link) => link.cause === code)?.strength[observer].value ?? 0) : null}</td>
                  <td>
                    <Ground provenance={provenance} />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
        {gates.length > 0 ? (
          <section className="sheet" aria-labelledby="gates">
            <h2 id="gates">Possible only under a condition</h2>
            <ul>
              {gates.map(({ finding, gate }) => (
                <li key={finding.code}>
                  <Link href={`/knowledge/${edition.number}/findings/${finding.code}`}>{finding.name}</Link>: {finding.options.filter(({ value }) => gate.onlyUnder.includes(value)).map(({ label }) => label).join(", or ")}
                </li>
              ))}
            </ul>
          </section>
        ) : null}
        {experience.length > 0 ? (
          <section className="sheet" aria-labelledby="experience">
            <h2 id="experience">Experience with kits</h2>
            <p>
              {experience.length === 1 ? "One kit has" : `${experience.length} kits and vehicles have`} odds of their own for it, from {figure(Math.min(...experience.map(({ oddsRatio }) => oddsRatio.value)))} to{" "}
              {figure(Math.max(...experience.map(({ oddsRatio }) => oddsRatio.value)))} times those of any fitted unit.
            </p>
          </section>
        ) : null}
        <section className="sheet" aria-labelledby="advice">
          <h2 id="advice">What puts it right</h2>
          <p className={css.narrow}>{cause.advice}</p>
          <p className="small soft">Customers read: {cause.plainName}.</p>
        </section>
      </div>
    </DeskShell>
  );
}

function SpeakingRow({ speaking: { finding, option, observer, ratios, provenance }, edition }: { speaking: Speaking; edition: number }) {
  const label = option === null ? null : finding.options.find(({ value }) => value === option)?.label;
  return (
    <tr>
      <th scope="row">
        <Balloon part={finding.part} /> <span className={css.code}>{finding.code}</span> <Link href={`/knowledge/${edition}/findings/${finding.code}`}>{finding.name}</Link>
        <span className="small soft">{label ? `: ${label}` : ` ${WHO_LOOKS[observer]}`}</span>
      </th>
      <td className={css.measure}>
        <RatioMark ratio={ratios.present} />
      </td>
      <td data-name="So" className={css.words}>{ratioInWords(ratios.present)}</td>
      <td className={css.measure}>{option === null ? <RatioMark ratio={ratios.absent} /> : null}</td>
      <td {...(option === null ? { "data-name": "Not so" } : {})} className={css.words}>{option === null ? ratioInWords(ratios.absent) : ""}</td>
      <td>
        <Ground provenance={provenance} />
      </td>
    </tr>
  );
}
