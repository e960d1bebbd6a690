import { beliefAfter } from "@/lib/domain/diagnosis/belief";
import { bestStep } from "@/lib/domain/diagnosis/check-plan-step";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import type { CauseCode, FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { physicalReadings } from "@/lib/domain/diagnosis/physical-readings";
import { type Decision, decide, priceOfCheck, type Stakes, USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { makeCatalogue } from "@/seed/catalogue";
import { type Complaint, playOut } from "@/seed/causal-model";
import { isLookedFor, lookFor, lookWhenFiling } from "@/seed/looking";
import { makeFitters } from "@/seed/names";
import { Random } from "@/seed/random";
import { makeShipments } from "@/seed/shipments";
import { Tables } from "@/seed/tables";

/** One way to go about a claim: from what is known to the next look, or to a decision. */
export interface Strategy {
  name: string;
  next: (known: readonly Observation[], asked: ReadonlySet<FindingCode>) => { finding: FindingCode; observer: Observer } | Decision;
}

/** What became of one claim under one strategy. */
export interface Outcome {
  checks: number;
  minutes: number;
  /** What the checks cost in all, and what the decision cost in truth, at the usual stakes. */
  looking: number;
  wrong: number;
  isUnitRight: boolean;
  isCauseRight: boolean;
}

/** The demo's own seed, on which the rule and its settings were chosen. */
export const DEMO_SEED = 20_261;
const TODAY = 20_782;
const STAKES = USUAL_STAKES;

/** Complaints of the demo's causal model, with their truth. Its figures are not those of the edition. */
export function complaintsOf(scale: number, seed = DEMO_SEED): readonly Complaint[] {
  const tables = new Tables();
  const catalogue = makeCatalogue(Random.forTheme(seed, "catalogue"), TODAY, tables);
  const fitters = makeFitters(Random.forTheme(seed, "fitters"), 64);
  const shipments = makeShipments(Random.forTheme(seed, "shipments"), catalogue, TODAY, scale, tables);
  const truth = Random.forTheme(seed, "truth");
  return shipments.flatMap((shipment) => playOut(truth, shipment, fitters, TODAY) ?? []);
}

/** What this observer answers: the same whichever strategy asks. Null where they cannot tell. */
export function look(complaint: Complaint, place: number, finding: FindingCode, observer: Observer, seed = DEMO_SEED): Observation | null {
  const seen = lookFor(Random.forTheme(seed, `${place} ${finding} ${observer}`), finding, complaint, observer);
  if (!seen) return null;
  if (seen.measured !== null) return { finding, observer, measured: seen.measured };
  return seen.answer === null ? null : { finding, observer, answer: seen.answer };
}

/** Every claim begins with what the owner tells when filing: where the oil is, how much, and the circumstances. */
function atFirst(complaint: Complaint, place: number, seed: number): readonly Observation[] {
  const isTold = new Set(edition1.findings.filter(({ code, kind }) => kind === "circumstance" || kind === "site" || code === "F04").map(({ code }) => code));
  return lookWhenFiling(Random.forTheme(seed, `${place} filing`), complaint, "customer").flatMap(({ code, observer, answer }) =>
    isTold.has(code) && answer !== null ? [{ finding: code, observer, answer }] : [],
  );
}

const UNIT_CAUSES = new Set(edition1.causes.filter(({ attribution }) => attribution === "unit").map(({ code }) => code));

/** Plays one claim to its decision. */
export function play(strategy: Strategy, complaint: Complaint, place: number, seed = DEMO_SEED): Outcome {
  const known = [...atFirst(complaint, place, seed)];
  const asked = new Set(known.map(({ finding }) => finding));
  let [checks, minutes, looking] = [0, 0, 0];
  for (;;) {
    const step = strategy.next(known, asked);
    if ("treatAs" in step) return { checks, minutes, looking, ...judged(step, complaint) };
    const definition = edition1.findings.find(({ code }) => code === step.finding);
    if (!definition || asked.has(step.finding)) throw new Error(`play needs a finding that was not asked yet, not ${step.finding}`);
    asked.add(step.finding);
    checks += 1;
    minutes += definition.minutes;
    looking += priceOfCheck(definition, step.observer, STAKES);
    const seen = look(complaint, place, step.finding, step.observer, seed);
    if (seen) known.push(withinPlausible(seen));
  }
}

function withinPlausible(seen: Observation): Observation {
  const definition = edition1.findings.find(({ code }) => code === seen.finding);
  if (definition?.kind !== "measurement" || !("measured" in seen)) return seen;
  return { ...seen, measured: Math.min(definition.plausible.max, Math.max(definition.plausible.min, seen.measured)) };
}

/** A decision held against the truth. Several causes may be there: advice on any that took part in the leak helps. */
function judged(decision: Decision, { truth }: Complaint): Pick<Outcome, "wrong" | "isUnitRight" | "isCauseRight"> {
  const causes = new Set<CauseCode>([truth.primary, ...truth.contributing]);
  const isDefective = UNIT_CAUSES.has(truth.primary);
  if (decision.treatAs === "defective") return { wrong: isDefective ? 0 : STAKES.needlessReturn + STAKES.wrongAdvice, isUnitRight: isDefective, isCauseRight: isDefective };
  const isCauseRight = decision.adviseOn !== null && causes.has(decision.adviseOn);
  return { wrong: (isDefective ? STAKES.missedDefect : 0) + (isCauseRight ? 0 : STAKES.wrongAdvice), isUnitRight: !isDefective, isCauseRight };
}

/** What the ranking says to do with what is known. */
function byRanking(known: readonly Observation[]): Decision {
  const belief = beliefAfter(known, edition1, NO_CONTEXT);
  return belief ? decide(belief, STAKES).decision : { treatAs: "sound", adviseOn: null };
}

/** The trade's order: the drain, the vent, the filter, then fore-and-aft play; each with the cause it shows. */
const TRADE_ORDER: readonly { finding: FindingCode; shows: CauseCode }[] = [
  { finding: "F12", shows: "C01" },
  { finding: "F17", shows: "C02" },
  { finding: "F13", shows: "C03" },
  { finding: "F24", shows: "C06" },
  { finding: "F25", shows: "C06" },
  { finding: "F34", shows: "C11" },
  { finding: "F41", shows: "C16" },
];

function isFault(seen: Observation): boolean {
  if ("answer" in seen) return seen.answer === "present" || seen.answer === "capped";
  const [reading] = physicalReadings(new Map([[seen.finding, seen]]), edition1);
  return (reading?.fallingShort ?? 0) > 0.5;
}

/** Whether an element is in the vent is no question where the vent leads into the intake. */
const isAsked = (finding: FindingCode, known: readonly Observation[]) =>
  finding !== "F25" || known.some((one) => one.finding === "F24" && "answer" in one && ["open-air", "catch-can"].includes(one.answer));

/** The fixed order, stopped at the first fault; where none is found the unit is held defective. */
const trade: Strategy = {
  name: "fixed order, its own rule",
  next: (known, asked) => {
    const fault = TRADE_ORDER.find(({ finding }) => known.some((seen) => seen.finding === finding && isFault(seen)));
    if (fault) return UNIT_CAUSES.has(fault.shows) ? { treatAs: "defective" } : { treatAs: "sound", adviseOn: fault.shows };
    const left = TRADE_ORDER.find(({ finding }) => !asked.has(finding) && isAsked(finding, known));
    return left ? { finding: left.finding, observer: "technician" } : { treatAs: "defective" };
  },
};

/** The same looks in the same order, stopped at the first fault, but decided by the ranking. */
const tradeRanked: Strategy = {
  name: "fixed order, then ranking",
  next: (known, asked) => {
    const step = trade.next(known, asked);
    return "treatAs" in step ? byRanking(known) : step;
  },
};

/** Everything an owner and a technician can look at. */
const everything: Strategy = {
  name: "ask everything",
  next: (known, asked) => {
    const left = edition1.findings.find(({ code, observers, runsEngine }) => !asked.has(code) && isLookedFor(code) && !runsEngine && observers.includes("technician") && isAsked(code, known));
    return left ? { finding: left.code, observer: "technician" } : byRanking(known);
  },
};

const NEVER_LOOKED_FOR = edition1.findings.map(({ code }) => code).filter((code) => !isLookedFor(code));

/** Ours: the best step by expected saving; stopped where nothing pays. */
function planned(name: string, observers: readonly Observer[], stakes: Stakes): Strategy {
  return {
    name,
    next: (known, asked) => {
      const step = bestStep(known, edition1, { observers, stakes, context: NO_CONTEXT, except: new Set([...asked, ...NEVER_LOOKED_FOR]) }, "one step");
      if (!step) return byRanking(known);
      return step.do === "decide" ? step.decision : step.check;
    },
  };
}

/** For a seller to whom advice on the wrong cause costs twice as much: it goes on for longer. */
const WARY: Stakes = { ...STAKES, wrongAdvice: 2 * STAKES.wrongAdvice };

export const STRATEGIES: readonly Strategy[] = [
  planned("our plan", ["customer", "technician"], STAKES),
  planned("our plan, wary", ["technician"], WARY),
  trade,
  tradeRanked,
  everything,
];
