import type { FindingCode, Observer } from "./knowledge";

/**
 * One thing somebody looked at. "Don't know" and "could not see" are simply not observations: they are left
 * out, because unknown is not absent.
 */
export type Observation =
  | { finding: FindingCode; observer: Observer; answer: string }
  | {
      finding: FindingCode;
      observer: Observer;
      measured: number;
      /** One standard deviation, where it was found in a roundabout way: counts where it is more than this observer's usual. */
      spread?: number;
    };
