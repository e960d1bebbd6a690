import type { LifeVerdict, TimeToClaim } from "@/lib/domain/reporting/time-to-claim";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import { claimsInWords, count } from "../../figures-in-words";
import { fine } from "../months/months-in-words";

/** What the shape of the lives says, as the page's heading. */
export function lifeHeadline(name: string, { units, claims, unitMonths, verdict, upperBound }: TimeToClaim): string {
  if (units === 0 && claims === 0) return `${name}: nothing was shipped in these months`;
  if (unitMonths === 0) return `${name}: nothing is in service yet`;
  if (claims === 0) return `${name}: no claim in ${count(unitMonths)} unit-months, so ${upperBound === null ? "nothing is known" : `under ${fine(upperBound)} per 1,000 unit-months`}`;
  if (claims === 1) return `${name}: one claim only, which tells no pattern`;
  return `${name}: ${HEADLINES[verdict]}`;
}

const HEADLINES: Readonly<Record<LifeVerdict, string>> = {
  infant: "claims come early and die out, as faults of the start do",
  random: "claims come at random, at any age alike",
  wear: "claims grow with age, as wear does",
  "cannot-tell": "whether claims come early or with wear cannot be told",
};

export const VERDICT_WORDS: Readonly<Record<LifeVerdict, string>> = {
  infant: "early life: faults of the start",
  random: "at random",
  wear: "wear",
  "cannot-tell": "cannot be told",
};

/** A verdict for the table, with why where it cannot be told. */
export function verdictInWords({ claims, verdict, fit, upperBound, unitMonths }: TimeToClaim): string {
  if (unitMonths === 0) return "nothing in service yet";
  if (claims === 0) return upperBound === null ? "no claim" : `no claim: under ${fine(upperBound)} per 1,000 unit-months (95 % sure)`;
  if (verdict !== "cannot-tell") return VERDICT_WORDS[verdict];
  if (fit.kind === "too-few-failures" || fit.kind === "no-spread" || fit.failures < 5) return `cannot be told from ${claimsInWords(claims)}`;
  return "cannot be told: the interval spans 1";
}

/** A shape with its interval: "0.35 (0.34–0.37)". Nothing where there is none. */
export function shapeInWords({ fit }: TimeToClaim): string {
  return fit.kind === "fitted" ? `${shape(fit.shape.estimate)} (${shape(fit.shape.lower)}–${fit.shape.upper > 99 ? "no end" : shape(fit.shape.upper)})` : "";
}

const shape = (value: number) => (value < 10 ? value.toFixed(2) : String(Math.round(value)));

/** A share in per cent with its band: "2.1 % (2.0–2.2)". */
export function shareInWords(share: Interval | null, none = ""): string {
  return share ? `${percent(share.estimate)} % (${percent(share.lower)}–${percent(share.upper)})` : none;
}

const percent = (share: number) => (share * 100 < 0.95 ? (share * 100).toFixed(2) : (share * 100).toFixed(1));
