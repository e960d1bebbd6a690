import type { CauseCode } from "../diagnosis/knowledge";
import { type Interval, poissonInterval } from "../statistics/poisson-interval";
import type { Month } from "./month";
import { OUTCOMES, type Outcome } from "./outcomes";
import type { Exposure } from "./share-out";

/** Of all intervals in the reports: one in twenty lies wholly below the truth, one in twenty wholly above. */
export const CONFIDENCE = 0.9;

/** With fewer claims a cell shows its count and interval and is never ranked by its rate. */
export const FEWEST_CLAIMS = 3;

/** Claims about shipments of one kit revision, vehicle and month of shipping that ended alike. */
export interface ClaimCount {
  kitRevisionId: string;
  vehicleId: string | null;
  month: Month;
  outcome: Outcome;
  /** The primary cause of the standing verdict. */
  cause: CauseCode | null;
  claims: number;
}

/** What was shipped and what came of it. */
export interface Figures {
  /** With the shipments shared out. */
  shipped: number;
  sharedOut: number;
  claims: number;
  outcomes: Readonly<Record<Outcome, number>>;
  /** Claims with a standing verdict. */
  decided: number;
  /** Claims per 1,000 shipped; null where nothing was shipped. */
  rate: Interval | null;
}

export function figuresOf(exposures: readonly Exposure[], claims: readonly ClaimCount[]): Figures {
  const sharedOut = exposures.reduce((sum, exposure) => sum + exposure.sharedOut, 0);
  const shipped = exposures.reduce((sum, exposure) => sum + exposure.known, sharedOut);
  const outcomes = Object.fromEntries(OUTCOMES.map((outcome) => [outcome, 0])) as Record<Outcome, number>;
  for (const count of claims) outcomes[count.outcome] += count.claims;
  const total = OUTCOMES.reduce((sum, outcome) => sum + outcomes[outcome], 0);
  return {
    shipped,
    sharedOut,
    claims: total,
    outcomes,
    decided: total - outcomes.undecided - outcomes.ended,
    rate: perThousand(total, shipped),
  };
}

/** Events per 1,000 shipped with the exact interval; null where nothing was shipped. */
export function perThousand(count: number, shipped: number): Interval | null {
  return shipped > 0 ? poissonInterval(count, shipped / 1000, CONFIDENCE) : null;
}
