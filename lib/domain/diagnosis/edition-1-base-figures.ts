/**
 * How often a fitted unit has each cause, bad enough to leak. Fitted once, by tests/bench/fit-base-figures.ts, to the
 * shares among complaints (turbine only, compressor only, both) and a complaint rate of 25 per 1,000 fitted units.
 * C22 and C23 have no share of their own there and are set by judgement.
 */
export const BASE_FIGURES = {
  C01: 0.00462,
  C02: 0.00257,
  C03: 0.00205,
  C04: 0.00103,
  C05: 0.00114,
  C06: 0.00285,
  C07: 0.00108,
  C08: 0.00285,
  C09: 0.000921,
  C10: 0.000921,
  C11: 0.00213,
  C12: 0.000679,
  C13: 0.000458,
  C14: 0.00056,
  C15: 0.000971,
  C16: 0.000597,
  C17: 0.000299,
  C18: 0.000904,
  C19: 0.000502,
  C20: 0.00362,
  C21: 0.00267,
  C22: 0.0002,
  C23: 0.0008,
} as const;
