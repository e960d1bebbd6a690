import type { CauseCode } from "../diagnosis/knowledge";
import type { Signal } from "./signals";
import type { SignalScope } from "./signals-scopes";

/** A signal of an earlier look. */
export interface KeptSignal {
  id: string;
  scope: SignalScope;
  cause: CauseCode;
}

export interface Continuation<Kept extends KeptSignal> {
  /** Stand out again, with the figures of now. */
  again: readonly { kept: Kept; signal: Signal; place: number }[];
  fresh: readonly { signal: Signal; place: number }[];
  /** Stand out no longer. */
  faded: readonly Kept[];
}

/**
 * Which signals of a list are the ones of earlier looks, so that one fault stays one signal. It is the same when cause, kit,
 * revision, vehicle and batch are; from which month of shipping it is told does not matter, since that moves on with
 * the calendar. Where a fault is told under another part of the sales than before, the earlier one among the parts that
 * it explains goes on.
 *
 * @example continueSignals([drainOfRevisionC], findSignals(sales).signals).fresh // the drain is not among them
 */
export function continueSignals<Kept extends KeptSignal>(earlier: readonly Kept[], found: readonly Signal[]): Continuation<Kept> {
  const left = new Map(earlier.map((kept) => [partOf(kept.scope, kept.cause), kept]));
  const take = (part: string) => {
    const kept = left.get(part);
    left.delete(part);
    return kept;
  };
  const placed = found.map((signal, index) => ({ signal, place: index + 1, kept: take(partOf(signal.scope, signal.cause)) }));
  const again: { kept: Kept; signal: Signal; place: number }[] = [];
  const fresh: { signal: Signal; place: number }[] = [];
  const told = new Set<string>();
  for (const { signal, place, kept: same } of placed) {
    const kept = same ?? signal.alsoSeenIn.map((scope) => take(partOf(scope, signal.cause))).find((one) => one !== undefined);
    const part = partOf(signal.scope, signal.cause);
    if (kept) again.push({ kept, signal, place });
    // A fault told twice, over all months and over the last ones, is one; the surer comes first.
    else if (!told.has(part)) fresh.push({ signal, place });
    told.add(part);
  }
  return { again, fresh, faded: [...left.values()] };
}

function partOf({ kitId, kitRevisionId, vehicleId, batch }: SignalScope, cause: CauseCode): string {
  return `${cause} ${kitId} ${kitRevisionId} ${vehicleId} ${batch}`;
}
