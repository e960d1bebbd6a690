import type { Language } from "../claims/languages";
import type { Attribution } from "./attributions";
import type { OilPathPart } from "./oil-path";

/** Who looked. A customer overlooks more and misnames more, so every figure is kept per observer. */
export const OBSERVERS = ["customer", "technician", "bench"] as const;
export type Observer = (typeof OBSERVERS)[number];

/** Where a figure comes from, so that a fitter can argue with it. */
export type Provenance =
  | { kind: "published"; source: string }
  | { kind: "common practice"; note?: string }
  | { kind: "judgement"; note?: string }
  | { kind: "learned"; note: string; counts: { of: number; hits: number } };

/** A number with its provenance. Probabilities lie in 0..1; odds ratios are positive. */
export interface Figure {
  value: number;
  provenance: Provenance;
}

/** Stable code, `C01`... */
export type CauseCode = string;
/** Stable code, `F01`... */
export type FindingCode = string;

/** One thing that explains oil where it should not be. */
export interface Cause {
  code: CauseCode;
  /** Name for staff: "Drain runs level, rises or sags". */
  name: string;
  /** The same in words for a customer, as a clause: "the oil drain runs level or uphill". */
  plainName: string;
  attribution: Attribution;
  /** True where it may lie with the fitter or with the kit's own parts; the verdict says which. */
  originIsOpen: boolean;
  part: OilPathPart;
  /** What puts it right, one or two sentences for the customer. */
  advice: string;
  /** How often a fitted unit has this cause, bad enough to leak. */
  base: Figure;
}

export type FigurePerObserver = Readonly<Record<Observer, Figure>>;

/** How often this observer sees the finding when that cause alone is there. */
export interface Link {
  cause: CauseCode;
  strength: FigurePerObserver;
}

/** Cautions printed where the work is; wording in `cautions.ts`. */
export const CAUTION_CODES = ["S1", "S2", "S3", "S4", "S5", "S6", "S7"] as const;
export type CautionCode = (typeof CAUTION_CODES)[number];

export const CHECK_COSTS = ["none", "low", "middle", "high"] as const;
export type CheckCost = (typeof CHECK_COSTS)[number];

/** What an answer can tell physics. */
export const TOLD = ["oil-grade", "bearing", "drain-run"] as const;
export type Told = (typeof TOLD)[number];

/** One answer a finding can take, beside "don't know". */
export interface AnswerOption {
  /** Stored value: `present`, `absent`, or the circumstance's own word (`intake`, `open-air`, ...). */
  value: string;
  label: string;
  /** Of a circumstance: how often it is so among fitted units. Only the worth of asking depends on it. */
  share?: Figure;
}

/** The act that yields a finding, and how it is asked. */
export interface FindingBase {
  code: FindingCode;
  /** Short name: "Drain route". */
  name: string;
  part: OilPathPart;
  /** Who may observe it. A customer is only asked what can be seen with the engine cold and stopped. */
  observers: readonly Observer[];
  minutes: number;
  cost: CheckCost;
  tools: readonly string[];
  cautions: readonly CautionCode[];
  /** Asked only once this other finding was answered in one of these ways. */
  askedWhen?: { finding: FindingCode; answers: readonly string[] };
  /** What the answer tells physics, beside what it shows by itself. */
  tells?: Told;
  /** The engine has to run for it: left out of every list while the engine must stand still. */
  runsEngine?: boolean;
  /** The question as put to the customer or technician, and why it is asked, one sentence each. */
  question: string;
  why: string;
  /** How to look, for the check as advised: one to three plain sentences. */
  how: string;
  options: readonly AnswerOption[];
}

/** Seen or not seen; a noisy-OR of its causes. Sites are where the oil is. */
export interface SignFinding extends FindingBase {
  kind: "site" | "sign";
  /** How often this observer sees it with none of its causes there. */
  background: FigurePerObserver;
  links: readonly Link[];
}

/** Shifts the base figures of causes before any evidence: odds ratios per option. */
export interface CircumstanceFinding extends FindingBase {
  kind: "circumstance";
  shifts: readonly { option: string; cause: CauseCode; oddsRatio: Figure }[];
  /** Causes that are possible only under the named options (no C18 unless the vent leads into the intake). */
  gates: readonly { cause: CauseCode; onlyUnder: readonly string[] }[];
}

/** What a number is a measure of. Physics knows what follows from each; `other` is only held against its limit. */
export const QUANTITIES = [
  "drain-bore",
  "drain-elbows",
  "drain-fall",
  "drain-lowest-angle",
  "drain-length",
  "crankcase-pressure",
  "blow-by",
  "vent-bore",
  "vent-length",
  "intake-depression",
  "filter-flow",
  "displacement",
  "rated-speed",
  "boost",
  "feed-pressure",
  "restrictor-bore",
  "outlet-angle",
  "shaft-tilt",
  "axial-play",
  "radial-play-centre",
  "radial-play-nose",
  "head-budget",
  "other",
] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** Units a number is kept in; what it may be typed in is more. */
export const MEASURED_UNITS = ["mm", "m", "deg", "kPa", "bar", "l/min", "m3/h", "l", "rpm", "elbows"] as const;
export type MeasuredUnit = (typeof MEASURED_UNITS)[number];

/** How good a reading is, one standard deviation: so much of the unit, and so great a share of the value. */
export interface Accuracy {
  absolute: number;
  share: number;
}

/** A limit with the spread that published limits have among themselves. */
export interface Limit {
  value: number;
  side: "below-is-bad" | "above-is-bad";
  spread: number;
  provenance: Provenance;
}

/**
 * A number with a unit. Physics turns it, with what else was measured, into a margin; the probability of falling short
 * becomes a likelihood ratio for one hidden sign ("the drain is too narrow"), which is a noisy-OR like the others.
 * Numbers that speak of one physical fact make one reading. Without observers it is computed, and nobody is asked.
 */
export interface MeasuredFinding extends FindingBase {
  kind: "measurement";
  quantity: Quantity;
  /** Unit of the stored value. */
  unit: MeasuredUnit;
  /** Outside this a value is questioned, not swallowed. */
  plausible: { min: number; max: number };
  accuracy: Readonly<Record<Observer, Accuracy>>;
  /** Null where physics gives the limit: what the unit sends, what the engine draws. */
  limit: Limit | null;
  background: FigurePerObserver;
  /** Empty where the number only sharpens the reading of another one. */
  links: readonly Link[];
  /** Findings of the same physical fact that are dropped when this one is measured. */
  replaces: readonly FindingCode[];
}

export type FindingDefinition = SignFinding | CircumstanceFinding | MeasuredFinding;

/** Why an engine must stand still until something is put right. */
export const STOP_REASONS = ["oil-in-intake-can-run-away", "oil-on-hot-parts", "wheel-contact"] as const;
export type StopReason = (typeof STOP_REASONS)[number];

/** The engine must stand still when every answer of `when` was given, and `unless` was not. */
export interface StopRule {
  reason: StopReason;
  /** The first is the finding named as the ground. */
  when: readonly [StopAnswer, ...StopAnswer[]];
  unless: StopAnswer | null;
}
export interface StopAnswer {
  finding: FindingCode;
  answer: string;
}

/** How many times the odds of a cause are those of any fitted unit, with this kit (and on this vehicle). */
export interface ExperienceRow {
  /** Ids of the catalogue. Null: on any vehicle. */
  kit: string;
  vehicle: string | null;
  cause: CauseCode;
  oddsRatio: Figure;
}

/** What physics assumes where nobody has measured, with a spread wide enough to be wrong in. */
export const REFERENCE_NAMES = [
  "oilSentJournal",
  "oilSentBall",
  "mostOilToBall",
  "oilTemperature",
  "hotOilViscosity",
  "liquidShare",
  "drainBore",
  "drainSlope",
  "drainFall",
  "drainOffset",
  "lowestShareOfSlope",
  "crankcasePressure",
  "blowBy",
  "ventLength",
  "ratedSpeed",
  "boost",
  "feedPressure",
  "feedFittingBore",
] as const;
export type ReferenceName = (typeof REFERENCE_NAMES)[number];

export interface Reference {
  /** In words, for whoever argues with it. */
  name: string;
  value: number;
  /** One standard deviation as a share of the value. */
  spread: number;
  unit: string;
  provenance: Provenance;
}

/** A text in another language, and the English text that it says: once that is changed, the translation is stale. */
export interface Translation {
  of: string;
  text: string;
}
/** By language, and by the name that `leavesOf` gives the English text: `findings.F12.question`. */
export type Translations = Readonly<Partial<Record<Language, Readonly<Record<string, Translation>>>>>;

/** One edition of the knowledge: a typed document; a ranking names the edition it was made with. */
export interface Edition {
  number: number;
  name: string;
  causes: readonly Cause[];
  findings: readonly FindingDefinition[];
  references: Readonly<Record<ReferenceName, Reference>>;
  /** What confirmed verdicts have shown of kits; see `experience.ts`. */
  experience: readonly ExperienceRow[];
  /** Groups of findings that speak of one physical fact: only the strongest of a group counts. */
  samePhysicalFact: readonly (readonly FindingCode[])[];
  /** Gravest first: the first rule that holds is the one shown. */
  stopRules: readonly StopRule[];
  /** What customers read, in the other languages; see `edition-in-language.ts`. */
  translations: Translations;
}
