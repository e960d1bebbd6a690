import type { CauseCode } from "./knowledge";

/**
 * How often a fitted unit has each cause, bad enough to leak. Fitted once, by tests/bench/fit-base-figures.ts, to the
 * shares among complaints (turbine only, compressor only, both) and a complaint rate of 25 per 1,000 fitted units.
 * C22 and C23 have no share of their own there and are set by judgement.
 */
export const BASE_FIGURES: Readonly<Record<CauseCode, number>> = {
  C01: 0.004,
  C02: 0.0022,
  C03: 0.0018,
  C04: 0.0009,
  C05: 0.0008,
  C06: 0.0021,
  C07: 0.0008,
  C08: 0.0021,
  C09: 0.0006,
  C10: 0.0006,
  C11: 0.0014,
  C12: 0.0006,
  C13: 0.0004,
  C14: 0.0005,
  C15: 0.0009,
  C16: 0.0004,
  C17: 0.0003,
  C18: 0.0009,
  C19: 0.0005,
  C20: 0.0035,
  C21: 0.0017,
  C22: 0.0002,
  C23: 0.0008,
};
