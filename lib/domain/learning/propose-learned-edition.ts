import type { Edition, ExperienceRow } from "../diagnosis/knowledge";
import { type Learning, learnBaseFigures } from "./base-figures";
import { learnExperience } from "./experience-rows";
import { learnFindings } from "./observer-figures";
import type { Exposure, TrainingExample } from "./training-example";
import { countVerdict, startCounts, type VerdictCounts } from "./verdict-counts";

/**
 * The edition that confirmed verdicts propose: base figures, experience with kits and vehicles, and links and
 * backgrounds per observer, each learned figure with its counts. Deterministic; the same verdicts in any order make the
 * same edition but for the last digits. A person promotes it or does not.
 *
 * Not learned: circumstances' odds ratios and limits of measurements, which stay as they are. Known biases: a verdict
 * rests in part on the very findings that are then counted with it, so that links come out a little sure; contributing
 * causes that nobody named make backgrounds a little high; findings are seen as independent given the causes.
 *
 * @param counts of the verdicts, taken around the edition as it was before any learning (`beforeLearning`)
 * @param present the edition in force
 */
export function learnedEdition(counts: VerdictCounts, exposure: Exposure, present: Edition): Edition {
  const findings = learnFindings(present.findings, counts);
  const learning: Learning = { counts, exposure, findings };
  const bases = learnBaseFigures(learning, present);
  const causes = present.causes.map((cause) => {
    const base = bases[counts.edition.causes.findIndex(({ code }) => code === cause.code)];
    return base ? { ...cause, base } : cause;
  });
  // What a person has typed of a kit stands before what verdicts say of it.
  const typed = counts.edition.experience;
  const isTyped = (row: ExperienceRow) => typed.some(({ kit, vehicle, cause }) => kit === row.kit && vehicle === row.vehicle && cause === row.cause);
  const experience = [...typed, ...learnExperience(learning).filter((row) => !isTyped(row))];
  return { ...present, name: nameOf(counts), causes, findings, experience };
}

function nameOf({ all, lastConfirmedAt }: VerdictCounts): string {
  const until = lastConfirmedAt ? ` to ${lastConfirmedAt.toISOString().slice(0, 10)}` : "";
  return `Learned from ${all.verdicts} verdicts${until}`;
}

/** The same in one step, from verdicts that are all at hand and an edition that nothing has taught yet. */
export function proposeLearnedEdition(examples: Iterable<TrainingExample>, exposure: Exposure, edition: Edition): Edition {
  const counts = startCounts(edition);
  for (const example of examples) countVerdict(counts, example);
  return learnedEdition(counts, exposure, edition);
}
