import type { CauseCode } from "../diagnosis/knowledge";
import { findSignals, type Signal, type SignalsList } from "./signals";
import { type Changed, type Effect, effectOf } from "./signals-effect";
import type { SignalScope } from "./signals-scopes";
import { type Watch, watchCell } from "./signals-watch";
import type { ShippedAndClaimed } from "./signals-world";

/** Of the surest so many it is told when their claims rose; each watch goes through all sales once. */
const MOST_WATCHED = 30;

/** What was changed about a signal of an earlier look. */
export interface ChangeMade {
  key: string;
  scope: SignalScope;
  cause: CauseCode;
  changed: Changed;
}

/** All that a look needs to know. */
export interface LookMatter {
  sales: ShippedAndClaimed;
  changes: readonly ChangeMade[];
}

/** What the cumulative sum of a signal's claims says. */
export type WatchSummary = Pick<Watch, "signalled" | "likelyStart">;

export interface LookResult extends SignalsList {
  watches: ReadonlyMap<Signal, WatchSummary | null>;
  /** What came of each change, by its key. */
  effects: ReadonlyMap<string, Effect>;
}

/**
 * One look at all sales: what stands out, since when it shows in what ships, and what came of what was changed. It takes
 * minutes where there are hundreds of signals among a hundred thousand claims.
 *
 * @example reckonLook({ sales, changes: [] }).signals[0] // kit KH-210 C on Drover 3.0, C01, 4.1 times
 */
export function reckonLook({ sales, changes }: LookMatter): LookResult {
  const list = findSignals(sales);
  return {
    ...list,
    watches: new Map(list.signals.slice(0, MOST_WATCHED).map((signal) => [signal, watchOf(signal, sales)])),
    effects: new Map(changes.map(({ key, scope, cause, changed }) => [key, effectOf(sales, { scope, cause, changed })])),
  };
}

function watchOf({ scope, cause, since }: Signal, sales: ShippedAndClaimed): WatchSummary | null {
  const watch = watchCell(sales, { scope, cause, from: since });
  return watch && { signalled: watch.signalled, likelyStart: watch.likelyStart };
}
