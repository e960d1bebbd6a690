import { expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { findingsFromAnswers } from "@/lib/domain/intake/findings-from-answers";
import { pairTold } from "@/lib/domain/intake/pair-told";
import { type IntakeState, type KnownPurchase, NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { describeScreen } from "@/lib/domain/intake/screens";
import { WITHOUT_WORDS } from "@/lib/domain/say";

const NO_CHOICES = { kits: [], vehicles: [], items: [] };
const state = (purchase: Partial<KnownPurchase>, pairUnit = "", otherSerial = ""): IntakeState => ({ answers: { oil: { place: "compressor", elsewhere: "dry", pairUnit, otherSerial } }, purchase: { ...NOTHING_KNOWN, ...purchase } });
const asked = (purchase: Partial<KnownPurchase>) => describeScreen("oil", state(purchase), edition1, NO_CHOICES, "2026-11-26", WITHOUT_WORDS).fields.map(({ name }) => name);
const staging = (told: IntakeState) => findingsFromAnswers(told, edition1).find(({ code }) => code === "F37")?.answer;

test("only a kit of a pair, or a vehicle that takes pairs, is asked which unit leaks", () => {
  expect(asked({})).toEqual(["place", "elsewhere"]);
  expect(asked({ staging: "single", vehicleTakesPairs: true })).toEqual(["place", "elsewhere"]);
  expect(asked({ staging: "high_pressure" })).toEqual(["place", "elsewhere", "pairUnit", "otherSerial"]);
  // Where the catalogue does not tell the units apart, a second serial would be of nobody knows which.
  expect(asked({ vehicleTakesPairs: true })).toEqual(["place", "elsewhere", "pairUnit"]);
});

test("the serials of a pair come to stand where they belong", () => {
  const large = { staging: "low_pressure" } as const;
  const small = { staging: "high_pressure" } as const;
  expect(pairTold(state(large, "large"), "L1")).toEqual({ pairUnit: "large", serial: "L1", otherSerial: null });
  expect(pairTold(state(large, "small"), "L1")).toEqual({ pairUnit: "small", serial: null, otherSerial: "L1" });
  expect(pairTold(state(large, "both", "S2"), "L1")).toEqual({ pairUnit: "both", serial: "L1", otherSerial: "S2" });
  expect(pairTold(state(small, "both", "L1"), "S2")).toEqual({ pairUnit: "both", serial: "L1", otherSerial: "S2" });
  expect(pairTold(state(large, "both", "l-1"), "L1")).toEqual({ pairUnit: "both", serial: "L1", otherSerial: null });
  for (const said of ["unknown", "single", ""]) expect(pairTold(state(large, said), "L1")).toEqual({ pairUnit: null, serial: "L1", otherSerial: null });
});

test("what was said of a pair that is none counts for nothing", () => {
  expect(pairTold(state({ staging: "single" }, "both", "S2"), "L1")).toEqual({ pairUnit: null, serial: "L1", otherSerial: null });
  expect(staging(state({ staging: "single" }, "small"))).toBe("single");
});

test("the unit that leaks is ranked, and of both the small one, whose film is not normal", () => {
  const large = { staging: "low_pressure" } as const;
  expect(["", "large", "small", "both", "unknown"].map((said) => staging(state(large, said)))).toEqual(["low-pressure", "low-pressure", "high-pressure", "high-pressure", "unknown"]);
});
