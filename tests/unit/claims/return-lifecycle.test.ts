import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eventOfStep, nextPlaces, PLACE_KINDS, withGaps } from "@/lib/domain/claims/custody";
import { isAwaited, isHere, RETURN_EVENTS, type ReturnEvent, returnTransition } from "@/lib/domain/claims/return-lifecycle";
import { RETURN_STATES, type ReturnState } from "@/lib/domain/claims/stages";

const events = fc.array(fc.constantFrom(...RETURN_EVENTS), { maxLength: 40 });

/** Every state a return was in, from its authorisation on; an event that is refused changes nothing. */
function lifeOf(happened: readonly ReturnEvent[]): readonly ReturnState[] {
  const life: ReturnState[] = ["authorised"];
  for (const event of happened) {
    const moved = returnTransition(life.at(-1) ?? "authorised", event);
    if (moved.ok) life.push(moved.state);
  }
  return life;
}

describe("a return, whatever happens in whatever order", () => {
  test("is never on the bench before it was received, and never comes back once it is disposed of", () => {
    fc.assert(
      fc.property(events, (happened) => {
        const life = lifeOf(happened);
        for (const [index, state] of life.entries()) {
          if (state === "on_the_bench") expect(life[index - 1]).toBe("received");
          if (state === "dispositioned") {
            expect(isHere(life[index - 1] ?? "authorised")).toBe(true);
            expect(index).toBe(life.length - 1);
          }
        }
      }),
    );
  });

  test("can always be brought to an end", () => {
    fc.assert(
      fc.property(events, (happened) => {
        const life = lifeOf([...happened, "receive", "disposition"]);
        expect(life.at(-1)).toBe("dispositioned");
      }),
    );
  });

  test("expires only while it is awaited", () => {
    for (const state of RETURN_STATES) expect(returnTransition(state, "expire").ok).toBe(isAwaited(state));
  });
});

test("every step of custody that a unit may take is one that its return can follow", () => {
  for (const state of RETURN_STATES) {
    for (const to of nextPlaces({ is: "unit", state, at: null, disposition: null })) {
      const event = eventOfStep(state, to);
      if (event) expect(returnTransition(state, event)).toMatchObject({ ok: true });
    }
  }
});

test("no unit leaves the house before the bench is done with it, no stray parcel before somebody decided", () => {
  const leaves = ["out", "supplier"] as const;
  for (const state of RETURN_STATES.filter((one) => one !== "dispositioned")) {
    for (const kind of leaves) expect(nextPlaces({ is: "unit", state, at: "door", disposition: null })).not.toContain(kind);
  }
  for (const kind of leaves) expect(nextPlaces({ is: "stray", isClosed: false, at: "quarantine" })).not.toContain(kind);
});

test("a step that begins where the last one ended leaves no gap, and any other does", () => {
  const place = fc.constantFrom(...PLACE_KINDS).map((kind) => ({ code: kind.toUpperCase(), name: kind, kind }));
  fc.assert(
    fc.property(fc.array(fc.record({ from: place, to: place }), { minLength: 1, maxLength: 8 }), (moves) => {
      const steps = moves.map((move, index) => ({ ...move, number: index + 1, at: new Date(index * 60_000) }));
      for (const [index, { gap }] of withGaps(steps).entries()) {
        const before = steps[index - 1];
        expect(gap !== null).toBe(before !== undefined && before.to.code !== steps[index]?.from.code);
      }
    }),
  );
});
