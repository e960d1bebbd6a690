import type { FindingCode, Observer } from "./knowledge";

/**
 * One thing somebody looked at. "Don't know" and "could not see" are simply not observations: they are left
 * out, because unknown is not absent.
 */
export type Observation =
  | { finding: FindingCode; observer: Observer; answer: string }
  | { finding: FindingCode; observer: Observer; measured: number };
