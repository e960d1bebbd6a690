import type { CauseCode, CheckCost, Observer } from "./knowledge";

/** What is at stake in deciding a claim, and what it costs to look, all in the shop's currency units. */
export interface Stakes {
  /** The unit was treated as defective and is not: carriage, bench, a replacement for nothing. */
  needlessReturn: number;
  /** The unit was treated as sound and is defective: a second repair, the damage, the customer. */
  missedDefect: number;
  /** The cause named is not there: another round of looking, writing and taking apart. */
  wrongAdvice: number;
  /** What a minute of each observer's time is worth. */
  minute: Readonly<Record<Observer, number>>;
  /** What a check of each class takes in parts and hire. */
  money: Readonly<Record<CheckCost, number>>;
  /** What each caution printed with a check weighs: the risk to the person and the engine. */
  caution: number;
}

/** Rough stakes until the shop has set its own (judgement). */
export const USUAL_STAKES: Stakes = {
  needlessReturn: 150,
  missedDefect: 600,
  wrongAdvice: 150,
  minute: { customer: 0.2, technician: 0.6, bench: 0.8 },
  money: { none: 0, low: 10, middle: 80, high: 200 },
  caution: 0.5,
};

/** The stakes as the seller's settings hold them, one figure each. */
export interface StakeSettings {
  needlessReturnCost: number;
  missedDefectCost: number;
  wrongAdviceCost: number;
  customerMinute: number;
  technicianMinute: number;
  benchMinute: number;
  lowCheck: number;
  middleCheck: number;
  highCheck: number;
  cautionCost: number;
}

export function stakesOf(settings: StakeSettings): Stakes {
  return {
    needlessReturn: settings.needlessReturnCost,
    missedDefect: settings.missedDefectCost,
    wrongAdvice: settings.wrongAdviceCost,
    minute: { customer: settings.customerMinute, technician: settings.technicianMinute, bench: settings.benchMinute },
    money: { none: 0, low: settings.lowCheck, middle: settings.middleCheck, high: settings.highCheck },
    caution: settings.cautionCost,
  };
}

/**
 * Price of a check: the observer's minutes, parts and hire, and the risk, as one sum of money.
 *
 * Example, at the usual stakes: a technician's 40 minutes at low cost with three cautions are 24 + 10 + 1.50 = 35.50.
 */
export function priceOfCheck(check: { minutes: number; cost: CheckCost; cautions: readonly unknown[] }, observer: Observer, stakes: Stakes): number {
  return check.minutes * stakes.minute[observer] + stakes.money[check.cost] + check.cautions.length * stakes.caution;
}

/** What is believed when a decision is taken. */
export interface Belief {
  unitDefective: number;
  /** The likeliest cause that is no defect of the unit, and how likely it is; null where the edition has none. */
  leader: { cause: CauseCode; probability: number } | null;
}

/** A belief with the cause that leads overall, be it a defect of the unit or not. */
export interface LedBelief extends Belief {
  likeliest: CauseCode | null;
}

/** Treat the unit as defective, or as sound with advice on the likeliest cause. */
export type Decision = { treatAs: "defective" } | { treatAs: "sound"; adviseOn: CauseCode | null };

/**
 * Cost of deciding now: of the two decisions the one that is expected to cost less. Treated as defective, a sound unit
 * is a needless return, and what made it leak is still there; treated as sound, a defective unit is a missed defect,
 * and advice on a cause that is not there costs another round.
 *
 * Source: expected loss of a decision (Raiffa and Schlaifer 1961, from memory). Example, at the usual stakes: a unit
 * defective with 5 %, a level drain with 80 %: treated as defective 0.95 * (150 + 150) = 285, as sound
 * 0.05 * 600 + 0.2 * 150 = 60.
 */
export function decide({ unitDefective, leader }: Belief, stakes: Stakes): { decision: Decision; cost: number } {
  const asDefective = (1 - unitDefective) * (stakes.needlessReturn + stakes.wrongAdvice);
  const asSound = unitDefective * stakes.missedDefect + (1 - (leader?.probability ?? 0)) * stakes.wrongAdvice;
  return asDefective < asSound ? { decision: { treatAs: "defective" }, cost: asDefective } : { decision: { treatAs: "sound", adviseOn: leader?.cause ?? null }, cost: asSound };
}
