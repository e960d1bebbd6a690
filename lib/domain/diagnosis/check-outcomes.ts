import { type Known, knownUnder, unitCausesOf } from "./belief";
import { claimNetwork, isWetSiteKnown, priorsGiven } from "./claim-network";
import type { ClaimContext } from "./experience";
import { indexedEdition } from "./indexed-edition";
import { type PreparedEvidence, prepareEvidence } from "./infer-causes";
import type { CircumstanceFinding, Edition, FindingDefinition, MeasuredFinding, Observer, SignFinding } from "./knowledge";
import { type NoisyOrEvidence, type NoisyOrNetwork, seen } from "./noisy-or";
import type { CauseWeights } from "./split-evidence";
import type { StandingCircumstance, StandingEvidence, StandingObservation } from "./standing-observations";

/** One way a check can come out, and what would be known then. */
export interface CheckOutcome extends Known {
  /** As observed; a measurement's hidden sign counts as "present" or "absent". */
  answer: string;
  /** Of a circumstance, how common this option is; else 1. */
  share: number;
}

/** What is known before a check, made ready once for all checks that leave it as it is. */
export interface BeforeCheck {
  counted: readonly StandingObservation[];
  edition: Edition;
  context: ClaimContext;
  unitCauses: ReadonlySet<number>;
  network: NoisyOrNetwork;
  evidence: readonly NoisyOrEvidence[];
  prepared: PreparedEvidence;
  known: Known;
}

/** Null where what was found cannot happen. */
export function beforeCheck(counted: readonly StandingObservation[], edition: Edition, context: ClaimContext): BeforeCheck | null {
  const unitCauses = unitCausesOf(edition);
  const { network, evidence } = claimNetwork(counted, edition, context);
  const prepared = prepareEvidence(network, evidence);
  const known = knownUnder(prepared, unitCauses);
  return known && { counted, edition, context, unitCauses, network, evidence, prepared, known };
}

/**
 * Outcomes of a check: what would be known after each answer, those that cannot happen left out. Options of a
 * circumstance are as common as the edition says (alike where it says nothing); all else is seen or not there, a
 * measurement being taken as a clear reading on either side of its limit.
 *
 * Evidence is not put together anew where an answer only moves the weights of the causes: a circumstance moves their
 * priors, and a sign that is not there multiplies each by 1 - link. Only while nobody has found a wet site, the answer to a site
 * changes what the complaint itself says.
 *
 * Example: a cause of prior 0.2, a sign with leak 0.1 and link 0.8: not there 0.8 * 0.9 + 0.2 * 0.18 = 0.756, and
 * then the cause has 0.036 / 0.756 = 0.048.
 */
export function outcomesOfCheck(definition: FindingDefinition, observer: Observer, before: BeforeCheck): CheckOutcome[] {
  if (definition.kind === "circumstance") return byOption(definition, observer, before);
  if (definition.kind === "site" && !isWetSiteKnown(before.counted)) return bySite(definition, observer, before);
  return bySign(definition, observer, before);
}

function byOption(definition: CircumstanceFinding, observer: Observer, before: BeforeCheck): CheckOutcome[] {
  const circumstances = before.counted.filter((one): one is StandingCircumstance => one.kind === "circumstance");
  return definition.options.flatMap(({ value, share }) => {
    const priors = priorsGiven([...circumstances, { kind: "circumstance", definition, observer, shown: value }], before.edition, before.context);
    const known = knownUnder(before.prepared, before.unitCauses, withPriors(before, priors));
    return known ? [{ ...known, answer: value, share: share?.value ?? 1 / definition.options.length }] : [];
  });
}

/** The weights of the causes with other priors; a claim's priors are never 0 or 1. */
function withPriors({ prepared: { absent, present }, network }: BeforeCheck, priors: readonly number[]): CauseWeights {
  const ratio = (cause: number, of: (prior: number) => number) => of(priors[cause] ?? 0) / of(network.priors[cause] ?? 0);
  return {
    absent: absent.map((weight, cause) => weight * ratio(cause, (prior) => 1 - prior)),
    present: present.map((weight, cause) => weight * ratio(cause, (prior) => prior)),
  };
}

/** Whether nothing is left wet: nobody would have complained, so that such an answer is not expected. */
function leavesAllDry(counted: readonly StandingObservation[], edition: Edition): boolean {
  const dry = new Set(counted.flatMap((one) => (one.kind === "evidence" && one.weightOn === 0 ? [one.definition.code] : [])));
  return indexedEdition(edition).sites.every(({ code }) => dry.has(code));
}

function bySite(definition: SignFinding, observer: Observer, { counted, edition, context }: BeforeCheck): CheckOutcome[] {
  return [1, 0].flatMap((on) => {
    const answer = on ? "present" : "absent";
    const told: StandingEvidence = { kind: "evidence", definition, observer, shown: answer, weightOn: on, weightOff: 1 - on };
    const after = leavesAllDry([...counted, told], edition) ? null : beforeCheck([...counted, told], edition, context);
    return after ? [{ ...after.known, answer, share: 1 }] : [];
  });
}

/** A sign that is seen at least this often can be told from its absence: a difference loses less than two digits. */
const SAFE_TO_SUBTRACT = 0.05;

function bySign(definition: SignFinding | MeasuredFinding, observer: Observer, before: BeforeCheck): CheckOutcome[] {
  const { edition, unitCauses, network, evidence, prepared, known } = before;
  const sign = indexedEdition(edition).figuresFor(definition, observer);
  const spared = new Float64Array(prepared.present);
  for (const { cause, strength } of sign.links) spared[cause] = (spared[cause] ?? 0) * (1 - strength);
  const without = knownUnder(prepared, unitCauses, { absent: prepared.absent, present: spared });
  const absent = without && sign.leak < 1 ? { ...without, logEvidence: without.logEvidence + Math.log(1 - sign.leak) } : null;
  const present = (absent && byDifference(known, absent)) ?? knownUnder(prepareEvidence(network, [...evidence, seen(sign)]), unitCauses);
  return [
    ...(present ? [{ ...present, answer: "present", share: 1 }] : []),
    ...(absent ? [{ ...absent, answer: "absent", share: 1 }] : []),
  ];
}

/** What would be known with the sign there, from what is known and what would be without; null where digits would be lost. */
function byDifference(known: Known, absent: Known): Known | null {
  const shareAbsent = Math.exp(absent.logEvidence - known.logEvidence);
  const share = 1 - shareAbsent;
  if (!(share >= SAFE_TO_SUBTRACT)) return null;
  const rest = (all: number, without: number) => Math.min(1, Math.max(0, (all - shareAbsent * without) / share));
  return {
    logEvidence: known.logEvidence + Math.log(share),
    unitDefective: rest(known.unitDefective, absent.unitDefective),
    causes: known.causes.map((all, cause) => rest(all, absent.causes[cause] ?? 0)),
  };
}
