import { expect, test } from "vitest";
import { playReadings } from "@/lib/domain/claims/play-readings";

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
