import { type ClaimContext, experienceWith, NO_CONTEXT } from "./experience";
import { indexedEdition } from "./indexed-edition";
import type { CauseCode, Edition } from "./knowledge";
import type { NoisyOrEvidence, NoisyOrFinding, NoisyOrNetwork } from "./noisy-or";
import type { StandingCircumstance, StandingEvidence, StandingObservation } from "./standing-observations";

/** A prior moved by circumstances stays within these bounds, so that evidence can still speak. */
const LEAST_PRIOR = 1e-6;

/** The noisy-or network of one claim; causes stand in the edition's order. */
export interface ClaimNetwork {
  network: NoisyOrNetwork;
  evidence: NoisyOrEvidence[];
}

/** A complaint was made: what it says about the sites nobody has looked at. */
export type ComplaintCondition = "made" | "left out";

/** Backgrounds of the sites as the edition has them, or none: then every wet site needs a cause. */
export type SiteBackgrounds = "as given" | "none";

/**
 * Priors given the circumstances: base figures shifted in log-odds by what is known of the kit and by each circumstance
 * told, and gated to almost nothing where the circumstance rules the cause out.
 *
 * Source: odds times the product of ratios, bounded (inference by log-odds). Example: a base of 0.002 with a ratio
 * of 3 gives odds of 0.00601 and a prior of 0.00598.
 */
export function priorsGiven(circumstances: readonly StandingCircumstance[], edition: Edition, context: ClaimContext): number[] {
  const { placeOf, baseLogOdds } = indexedEdition(edition);
  const logOdds = [...baseLogOdds];
  const shift = (cause: CauseCode, by: number) => {
    const place = placeOf.get(cause);
    if (place !== undefined) logOdds[place] = (logOdds[place] ?? 0) + by;
  };
  for (const [cause, ratio] of experienceWith(context, edition)) shift(cause, Math.log(ratio));
  for (const { definition, shown } of circumstances) {
    for (const { cause, option, oddsRatio } of definition.shifts) if (option === shown) shift(cause, Math.log(oddsRatio.value));
    for (const { cause, onlyUnder } of definition.gates) if (!onlyUnder.includes(shown)) shift(cause, Number.NEGATIVE_INFINITY);
  }
  return logOdds.map((value) => Math.min(1 - LEAST_PRIOR, Math.max(LEAST_PRIOR, 1 / (1 + Math.exp(-value)))));
}

/** A wet site says by itself that something leaks. */
export function isWetSiteKnown(counted: readonly StandingObservation[]): boolean {
  return counted.some((one) => one.kind === "evidence" && one.definition.kind === "site" && one.weightOn > 0);
}

/**
 * The network of a claim: priors from the circumstances, one piece of evidence per counted finding with the figures
 * of whoever looked, and the condition that a complaint was made.
 *
 * A site known to be wet says by itself that something leaks. If none is, "wet somewhere" over the sites nobody has
 * looked at is one more positive finding (on when any of them is wet: link 1 - product(1 - link), background likewise,
 * with the customer's figures); with every site dry there is nothing to add.
 */
export function claimNetwork(
  counted: readonly StandingObservation[],
  edition: Edition,
  context: ClaimContext = NO_CONTEXT,
  complaint: ComplaintCondition = "made",
  siteBackgrounds: SiteBackgrounds = "as given",
): ClaimNetwork {
  const circumstances = counted.filter((one): one is StandingCircumstance => one.kind === "circumstance");
  const found = counted.filter((one): one is StandingEvidence => one.kind === "evidence");
  const withoutBackground = (finding: NoisyOrFinding) => (siteBackgrounds === "none" ? { ...finding, leak: 0 } : finding);

  const { sites, figuresFor, wetSomewhere } = indexedEdition(edition);
  const evidence = found.map(({ definition, observer, weightOn, weightOff }): NoisyOrEvidence => {
    const figures = figuresFor(definition, observer);
    return { finding: definition.kind === "site" ? withoutBackground(figures) : figures, weightOn, weightOff };
  });
  const unknownSites = sites.filter(({ code }) => !found.some(({ definition }) => definition.code === code));
  if (complaint === "made" && !isWetSiteKnown(counted) && unknownSites.length > 0) {
    evidence.push({ finding: withoutBackground(wetSomewhere(unknownSites)), weightOn: 1, weightOff: 0 });
  }
  return { network: { priors: priorsGiven(circumstances, edition, context) }, evidence };
}
