import type { Cause, Edition, Figure, FigurePerObserver, FindingDefinition } from "../diagnosis/knowledge";

/** The figure itself unless it was learned; then the same figure of the nearest edition before, in which it was not. */
function figureBefore(figure: Figure, earlier: readonly (Figure | undefined)[]): Figure {
  return [figure, ...earlier].find((one) => one !== undefined && one.provenance.kind !== "learned") ?? figure;
}

function perObserverBefore(figures: FigurePerObserver, earlier: readonly (FigurePerObserver | undefined)[]): FigurePerObserver {
  const before = (observer: keyof FigurePerObserver) => figureBefore(figures[observer], earlier.map((one) => one?.[observer]));
  return { customer: before("customer"), technician: before("technician"), bench: before("bench") };
}

/**
 * An edition as it was before any verdict taught it, figure by figure. Learning begins here and counts all verdicts, so
 * that no verdict is counted twice when an edition that was learned is learned from again.
 *
 * Example: a base figure learned in edition 3 from edition 2's judgement is edition 2's again; one that a person has
 * typed since stays.
 *
 * @param edition the one in force
 * @param ancestors what it was made from, nearest first
 */
export function beforeLearning(edition: Edition, ancestors: readonly Edition[]): Edition {
  const causesOf = (code: string) => ancestors.map(({ causes }) => causes.find((cause) => cause.code === code));
  const findingsOf = (code: string) =>
    ancestors.map(({ findings }) => {
      const finding = findings.find((one) => one.code === code);
      return finding?.kind === "circumstance" ? undefined : finding;
    });
  const causes = edition.causes.map((cause): Cause => ({ ...cause, base: figureBefore(cause.base, causesOf(cause.code).map((one) => one?.base)) }));
  const findings = edition.findings.map((finding): FindingDefinition => {
    if (finding.kind === "circumstance") return finding;
    const earlier = findingsOf(finding.code);
    return {
      ...finding,
      background: perObserverBefore(finding.background, earlier.map((one) => one?.background)),
      links: finding.links.map((link) => ({ ...link, strength: perObserverBefore(link.strength, earlier.map((one) => one?.links.find(({ cause }) => cause === link.cause)?.strength)) })),
    };
  });
  return { ...edition, causes, findings, experience: edition.experience.filter(({ oddsRatio }) => oddsRatio.provenance.kind !== "learned") };
}
