import Link from "next/link";
import { Balloon } from "@/app/_components/balloon";
import { percent, Scale } from "@/app/_components/scale";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { timesInWords } from "@/lib/domain/diagnosis/full-account";
import { COMPLAINT, EXPERIENCE, type EvidenceStep, evidenceOf, type Ranked, type RankedCause } from "@/lib/domain/diagnosis/ranking";
import { ATTRIBUTION_WORDS, OBSERVER_WORDS } from "../words";
import css from "./claim.module.css";

const SHOWN_AT_ONCE = 5;
/** A weight below this moves the odds by less than a twentieth. */
const WORTH_SHOWING = 0.05;

/** What explains it: the causes ranked, the rest folded away. */
export function Causes({ ranking, edition, selected, address }: { ranking: Ranked; edition: Edition; selected: string | undefined; address: string }) {
  const rows = (causes: readonly RankedCause[]) => <CauseTable causes={causes} edition={edition} selected={selected} address={address} />;
  const rest = ranking.causes.slice(SHOWN_AT_ONCE);
  return (
    <>
      {rows(ranking.causes.slice(0, SHOWN_AT_ONCE))}
      {rest.length > 0 ? (
        <details open={rest.some(({ code }) => code === selected)}>
          <summary className="small">{rest.length} less likely</summary>
          {rows(rest)}
        </details>
      ) : null}
      <p className="small soft">Several can be there at once, so these need not add up. Solid: fitting or kit. Hatched: engine or elsewhere. Amber: unit. Dotted: normal. Crossed: carriage.</p>
    </>
  );
}

function CauseTable({ causes, edition, selected, address }: { causes: readonly RankedCause[]; edition: Edition; selected: string | undefined; address: string }) {
  return (
    <table className={css.causes}>
      <thead className="visually-hidden">
        <tr>
          <th scope="col">Part</th>
          <th scope="col">Cause</th>
          <th scope="col">Scale</th>
          <th scope="col">Probability</th>
        </tr>
      </thead>
      <tbody>
        {causes.map((cause, index) => (
          <tr key={cause.code} className={cause.code === selected ? css.selected : ""}>
            <td>
              <Balloon part={cause.part} isHot={index === 0 && cause.probability >= 0.35} />
            </td>
            <td>
              <Link href={`${address}?cause=${cause.code}#why`} scroll={false} {...(cause.code === selected ? { "aria-current": "true" as const } : {})}>
                {edition.causes.find(({ code }) => code === cause.code)?.name ?? cause.code}
              </Link>{" "}
              <span className="small soft">{ATTRIBUTION_WORDS[cause.attribution]}</span>
            </td>
            <td className={css.measure}>
              <Scale share={cause.probability} attribution={cause.attribution} />
            </td>
            <td className="num">{percent(cause.probability)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Evidence for and against one cause: right and left of a centre line, the heaviest first. */
export function Evidence({ ranking, cause, edition }: { ranking: Ranked; cause: RankedCause; edition: Edition }) {
  const name = edition.causes.find(({ code }) => code === cause.code)?.name ?? cause.code;
  // A complaint speaks for every cause that leaks: told below, so that it does not dwarf what was found.
  const evidence = evidenceOf(ranking, cause);
  const complaint = evidence.find(({ finding }) => finding === COMPLAINT);
  const found = evidence.filter(({ finding }) => finding !== COMPLAINT);
  const weights = found.filter(({ weight }) => Math.abs(weight) >= WORTH_SHOWING).sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight));
  const heaviest = Math.max(1, ...weights.map(({ weight }) => Math.abs(weight)));
  return (
    <section className="sheet" id="why" aria-labelledby="why-heading">
      <h2 id="why-heading">
        {weights.length > 0 && (weights[0]?.weight ?? 0) < 0 ? "What speaks against" : "Why"}: {name}
      </h2>
      {weights.length === 0 ? <p>Nothing that was found speaks for it or against it.</p> : null}
      <ul className={css.evidence}>
        {weights.map(({ weight, ...step }) => (
          <li key={step.finding}>
            <EvidenceWords step={step} edition={edition} />
            <svg className={css.bar} viewBox="0 0 200 14" role="img" aria-label={`${weight > 0 ? "for" : "against"}, ${timesInWords(weight)}`}>
              <line className={css.barCentre} x1="100" x2="100" y1="0" y2="14" />
              <rect className={weight > 0 ? css.barFor : css.barAgainst} x={weight > 0 ? 100 : 100 - (-weight / heaviest) * 97} y="2" width={Math.max(2, (Math.abs(weight) / heaviest) * 97)} height="10" />
            </svg>
            <span className="num small">{timesInWords(weight)}</span>
          </li>
        ))}
      </ul>
      <WithoutEffect steps={found.filter(({ weight }) => Math.abs(weight) < WORTH_SHOWING)} edition={edition} />
      <p className="small soft">
        Among all fitted units {percent(cause.base)}{complaint ? `; that somebody complains at all ${timesInWords(complaint.weight)}` : ""}; now {percent(cause.probability)}. Filled: for it. Hollow: against. The number says how many times the odds grow or shrink.
      </p>
    </section>
  );
}

/** What was looked at and moves this cause by next to nothing: without it the list would seem to forget. */
function WithoutEffect({ steps, edition }: { steps: readonly EvidenceStep[]; edition: Edition }) {
  if (steps.length === 0) return null;
  return (
    <details>
      <summary className="small">{steps.length} considered without effect</summary>
      <ul className="small">
        {steps.map((step) => (
          <li key={step.finding}>
            <EvidenceWords step={step} edition={edition} />
          </li>
        ))}
      </ul>
    </details>
  );
}

function EvidenceWords({ step: { finding, answer, observer, reading }, edition }: { step: EvidenceStep; edition: Edition }) {
  if (finding === EXPERIENCE) return <span>What earlier claims about this kit have shown</span>;
  const definition = edition.findings.find(({ code }) => code === finding);
  const words = definition?.options.find(({ value }) => value === answer)?.label ?? answer;
  return (
    <span>
      {definition ? <Balloon part={definition.part} /> : null} {definition?.name ?? finding}: {words} <span className="small soft">{observer ? OBSERVER_WORDS[observer] : ""}{reading ? `; ${reading}` : ""}</span>
    </span>
  );
}

/** Whose it may be, each as a probability of its own. */
export function Shares({ ranking }: { ranking: Ranked }) {
  const rows = [
    ...ATTRIBUTIONS.map((attribution) => ({ name: ATTRIBUTION_WORDS[attribution], share: ranking.attributions[attribution], attribution })).filter(({ share }) => share >= 0.005),
  ].sort((a, b) => b.share - a.share);
  return (
    <section className="sheet">
      <h2>Unit at fault: {percent(ranking.unitDefective)}</h2>
      <table className={css.causes}>
        <tbody>
          {rows.map(({ name, share, attribution }) => (
            <tr key={attribution}>
              <th scope="row">{name}</th>
              <td className={css.measure}>
                <Scale share={share} attribution={attribution} />
              </td>
              <td className="num">{percent(share)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">
        Chance that at least one cause of that kind is there. Nothing wrong {percent(ranking.nothingWrong)}; not explained by any known cause {percent(ranking.notExplained)}.
      </p>
    </section>
  );
}
