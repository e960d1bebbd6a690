import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boreFromOutside, outerFromRound, spreadOfBore, USUAL_WALL_MM } from "@/lib/domain/intake/bore-from-outside";
import { fallFromHeights } from "@/lib/domain/intake/fall-from-heights";
import { slopeFromTwoTilts, tiltOfPhone } from "@/lib/domain/intake/slope-from-phone";

describe("the bore of a hose from its outside", () => {
  test("is the outer width less two walls: 66 mm round, 21.0 across, walls of 4 mm, a bore of 13.0", () => {
    expect(outerFromRound(66)).toBeCloseTo(21.008, 3);
    expect(boreFromOutside(outerFromRound(66), USUAL_WALL_MM)).toBeCloseTo(13.008, 3);
  });

  test("is less sure with the usual wall than with one that was read, and both less than across the bore", () => {
    expect(spreadOfBore("outside-usual-wall")).toBeCloseTo(1.676, 3);
    expect(spreadOfBore("outside-known-wall")).toBeCloseTo(0.781, 3);
  });
});

test("a fall from two heights is below 0 where the entry lies higher", () => {
  expect(fallFromHeights(820, 700)).toBe(120);
  expect(fallFromHeights(700, 720)).toBe(-20);
});

describe("a slope from the phone's level", () => {
  test("is the same however the phone is turned over its long edge", () => {
    expect(tiltOfPhone(8)).toBeCloseTo(8, 9);
    expect(tiltOfPhone(172)).toBeCloseTo(8, 9);
    expect(tiltOfPhone(-90)).toBeCloseTo(-90, 9);
  });

  test("needs no level phone: what it is off by drops out when it is turned round", () => {
    fc.assert(
      fc.property(fc.double({ min: -40, max: 40, noNaN: true }), fc.double({ min: -5, max: 5, noNaN: true }), (falls, isOff) => {
        expect(slopeFromTwoTilts(-falls + isOff, falls + isOff)).toBeCloseTo(falls, 9);
      }),
    );
  });
});
