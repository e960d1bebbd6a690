import { expect, test } from "vitest";
import { placeReading, playReadings } from "@/lib/domain/claims/play-readings";

const LIMITS = { axialPlayMinMm: 0.04, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.5 };

test.each([
  ["F41", 0.31, "over"],
  ["F41", 0.09, "within"],
  ["F41", 0.02, "under"],
  ["F42", 0.5, "within"],
  ["F42", 0.51, "over"],
] as const)("%s of %d mm is %s the model's limit", (code, measured, standing) => {
  expect(playReadings([{ code, measured }], LIMITS)).toMatchObject([{ measured, standing }]);
});

test("what has no limit of the model is left out", () => {
  expect(playReadings([{ code: "F45", measured: null }, { code: "F13", measured: 12 }], LIMITS)).toEqual([]);
});

test("a reading tells by how much it lies beyond its range, and whether the gauge can tell", () => {
  const range = { min: 0.03, max: 0.09 };
  const over = placeReading(0.31, range, 0.01);
  expect(over).toMatchObject({ standing: "over", isClear: true });
  expect(over.beyondMm).toBeCloseTo(0.22, 12);
  expect(placeReading(0.1, range, 0.01)).toMatchObject({ standing: "over", isClear: false });
  expect(placeReading(0.01, range, 0.005)).toMatchObject({ standing: "under", isClear: true });
  // Without a lower end nothing is too tight.
  expect(placeReading(0, { min: 0, max: 0.15 }, 0.01)).toEqual({ standing: "within", beyondMm: 0, isClear: true });
});
