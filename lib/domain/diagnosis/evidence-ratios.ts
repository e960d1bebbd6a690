import { type CauseCode, type Edition, type FindingDefinition, OBSERVERS, type Observer, type Provenance } from "./knowledge";

/** How many times as likely an answer is with the cause there as with none of the finding's causes. */
export interface EvidenceRatios {
  /** Seen. */
  present: number;
  /** Looked at and not there. */
  absent: number;
}

/**
 * Ratios of a link, the form in which a fitter argues: seen 1 + link (1 - background) / background, and not there
 * 1 - link, since a noisy-or multiplies what each cause leaves unseen (Pearl 1988, from memory).
 *
 * Example: background 0.08 and link 0.95 give 12 when seen and 0.05 when not.
 */
export function ratiosOfLink(background: number, link: number): EvidenceRatios {
  return { present: link === 0 ? 1 : 1 + (link * (1 - background)) / background, absent: 1 - link };
}

/** One thing that speaks for or against a cause. */
export interface Speaking {
  finding: FindingDefinition;
  /** The option of a circumstance; null for a finding that is seen, measured or not there. */
  option: string | null;
  /** Whose figures they are: the most authoritative who may look. */
  observer: Observer;
  ratios: EvidenceRatios;
  /** Of the link or the odds ratio. */
  provenance: Provenance;
  /** The most it can move the odds, in natural log. */
  strength: number;
}

/** The most authoritative observer of a finding. */
export function bestObserver({ observers }: FindingDefinition): Observer {
  return [...OBSERVERS].reverse().find((observer) => observers.includes(observer)) ?? "technician";
}

const far = (...ratios: readonly number[]) => Math.max(...ratios.map((ratio) => Math.abs(Math.log(ratio))));

/** Everything that speaks for or against a cause, the strongest first. */
export function speakingOf(cause: CauseCode, edition: Edition): Speaking[] {
  const all = edition.findings.flatMap((finding): Speaking[] => {
    const observer = bestObserver(finding);
    if (finding.kind === "circumstance") {
      return finding.shifts
        .filter((shift) => shift.cause === cause)
        .map(({ option, oddsRatio }) => ({ finding, option, observer, ratios: { present: oddsRatio.value, absent: 1 }, provenance: oddsRatio.provenance, strength: far(oddsRatio.value) }));
    }
    const link = finding.links.find((one) => one.cause === cause);
    if (!link) return [];
    const { value, provenance } = link.strength[observer];
    const ratios = ratiosOfLink(finding.background[observer].value, value);
    return [{ finding, option: null, observer, ratios, provenance, strength: far(ratios.present, ratios.absent) }];
  });
  return all.sort((a, b) => b.strength - a.strength);
}
