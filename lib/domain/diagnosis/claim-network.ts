import { type ClaimContext, experienceWith, NO_CONTEXT } from "./experience";
import type { Edition, MeasuredFinding, Observer, SignFinding } from "./knowledge";
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

const logit = (probability: number) => Math.log(probability / (1 - probability));

/**
 * Priors given the circumstances: base figures shifted in log-odds by what is known of the kit and by each circumstance
 * told, and gated to almost nothing where the circumstance rules the cause out.
 *
 * Source: odds times the product of ratios, bounded (inference by log-odds). Example: a base of 0.002 with a ratio
 * of 3 gives odds of 0.00601 and a prior of 0.00598.
 */
function priorsGiven(circumstances: readonly StandingCircumstance[], edition: Edition, context: ClaimContext): number[] {
  const experience = experienceWith(context, edition);
  return edition.causes.map(({ code, base }) => {
    let logOdds = logit(base.value) + Math.log(experience.get(code) ?? 1);
    for (const { definition, shown } of circumstances) {
      for (const shift of definition.shifts) {
        if (shift.cause === code && shift.option === shown) logOdds += Math.log(shift.oddsRatio.value);
      }
      for (const gate of definition.gates) {
        if (gate.cause === code && !gate.onlyUnder.includes(shown)) logOdds = Number.NEGATIVE_INFINITY;
      }
    }
    return Math.min(1 - LEAST_PRIOR, Math.max(LEAST_PRIOR, 1 / (1 + Math.exp(-logOdds))));
  });
}

/** A finding's figures for one observer, causes named by their place in the edition. */
function figuresFor(definition: SignFinding | MeasuredFinding, observer: Observer, edition: Edition): NoisyOrFinding {
  return {
    leak: definition.background[observer].value,
    links: definition.links.map(({ cause, strength }) => ({
      cause: edition.causes.findIndex(({ code }) => code === cause),
      strength: strength[observer].value,
    })),
  };
}

/**
 * "Wet somewhere": the complaint as one finding over the sites nobody has looked at, on when any of them is wet:
 * link 1 - product(1 - link), background likewise. Told by the customer, so with the customer's figures.
 */
function wetSomewhere(sites: readonly SignFinding[], edition: Edition): NoisyOrFinding {
  const each = sites.map((site) => figuresFor(site, "customer", edition));
  const anyOf = (chances: readonly number[]) => 1 - chances.reduce((none, chance) => none * (1 - chance), 1);
  return {
    leak: anyOf(each.map(({ leak }) => leak)),
    links: edition.causes.map((_, cause) => ({
      cause,
      strength: anyOf(each.flatMap(({ links }) => links.filter((link) => link.cause === cause).map(({ strength }) => strength))),
    })),
  };
}

/**
 * The network of a claim: priors from the circumstances, one piece of evidence per counted finding with the figures
 * of whoever looked, and the condition that a complaint was made.
 *
 * A site known to be wet says by itself that something leaks. If none is, "wet somewhere" over the sites nobody has
 * looked at is one more positive finding; with every site dry there is nothing to add.
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

  const evidence = found.map(({ definition, observer, weightOn, weightOff }): NoisyOrEvidence => {
    const figures = figuresFor(definition, observer, edition);
    return { finding: definition.kind === "site" ? withoutBackground(figures) : figures, weightOn, weightOff };
  });
  const isWetSiteKnown = found.some(({ definition, weightOn }) => definition.kind === "site" && weightOn > 0);
  const unknownSites = edition.findings.filter(
    (definition): definition is SignFinding =>
      definition.kind === "site" && !found.some((one) => one.definition.code === definition.code),
  );
  if (complaint === "made" && !isWetSiteKnown && unknownSites.length > 0) {
    evidence.push({ finding: withoutBackground(wetSomewhere(unknownSites, edition)), weightOn: 1, weightOff: 0 });
  }
  return { network: { priors: priorsGiven(circumstances, edition, context) }, evidence };
}
