import type { ReturnState } from "./stages";

/** A named act that moves a return. The actor and the time are kept in the audit entry of the same transaction. */
export const RETURN_EVENTS = ["set_out", "prolong", "expire", "receive", "put_on_bench", "take_off_bench", "set_aside", "disposition"] as const;
export type ReturnEvent = (typeof RETURN_EVENTS)[number];

/**
 * Every legal move. A unit that comes after its return ran out is taken in all the same. `set_aside` is for a unit that
 * turned out to be another one: the right one is still awaited.
 */
const MOVES: Readonly<Record<ReturnEvent, Readonly<Partial<Record<ReturnState, ReturnState>>>>> = {
  set_out: { authorised: "in_carriage", in_carriage: "in_carriage", expired: "in_carriage" },
  prolong: { authorised: "authorised", in_carriage: "in_carriage", expired: "authorised" },
  expire: { authorised: "expired", in_carriage: "expired" },
  receive: { authorised: "received", in_carriage: "received", expired: "received" },
  put_on_bench: { received: "on_the_bench" },
  take_off_bench: { on_the_bench: "received" },
  set_aside: { received: "authorised", on_the_bench: "authorised" },
  disposition: { received: "dispositioned", on_the_bench: "dispositioned" },
};

export type ReturnTransition = { ok: true; state: ReturnState } | { ok: false; reason: "not-legal-here"; event: ReturnEvent; state: ReturnState };

/**
 * The state of a return after an event, or a refusal.
 *
 * @example returnTransition("expired", "receive") // { ok: true, state: "received" }
 * @example returnTransition("received", "receive") // { ok: false, reason: "not-legal-here", ... }
 */
export function returnTransition(state: ReturnState, event: ReturnEvent): ReturnTransition {
  const next = MOVES[event][state];
  return next ? { ok: true, state: next } : { ok: false, reason: "not-legal-here", event, state };
}

/** Whether the unit is in the house and nobody has said yet what becomes of it. */
export function isHere(state: ReturnState): boolean {
  return state === "received" || state === "on_the_bench";
}

/** Whether the unit may still come. */
export function isAwaited(state: ReturnState): boolean {
  return state === "authorised" || state === "in_carriage";
}
