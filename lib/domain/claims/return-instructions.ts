import type { Say } from "../say";
import type { PairUnit } from "./pair-units";

export interface ReturnFacts {
  /** Of the return, `R-` and a reference. */
  number: string;
  /** The day by which the unit should be here, in words. */
  sendBy: string;
  /** Which unit of a compound pair is wanted; null where it is no pair. */
  pairUnit: PairUnit | null;
  seller: { name: string; returnAddress: string };
}

const STEPS = ["sendIn.steps.cool", "sendIn.steps.oil", "sendIn.steps.leave", "sendIn.steps.plug", "sendIn.steps.bag", "sendIn.steps.gaskets", "sendIn.steps.box"] as const;

/**
 * How to send the unit in: where to and by when, then step by step, the same on the customer's page and in the mail. Line
 * breaks within a paragraph are those of the address.
 *
 * Oil that runs is let out, since carriers stop what leaks; beyond that the unit is left as it came off, because where oil
 * lies and how hard it has baked is what the bench reads (common practice).
 */
export function returnInstructions({ number, sendBy, pairUnit, seller }: ReturnFacts, say: Say): { whereTo: string; steps: readonly string[] } {
  return {
    whereTo: say("sendIn.whereTo", { day: sendBy, address: postalAddress(seller).join("\n") }),
    steps: [...(pairUnit ? [say(`sendIn.which.${pairUnit}`)] : []), ...STEPS.map((step) => say(step)), say("sendIn.steps.number", { number })],
  };
}

/** The lines of an address under the firm's name, which many addresses begin with already. */
export function postalAddress({ name, returnAddress }: ReturnFacts["seller"]): readonly string[] {
  const lines = returnAddress.split("\n").map((line) => line.trim());
  return [name, ...lines.filter((line) => line !== "" && line !== name)];
}
