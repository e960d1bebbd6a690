import { expect, test } from "vitest";
import { compareSerials, matchSerials, pairUnitHere, pairUnitMeasured, serialAwaited } from "@/lib/domain/claims/serials";

test("a serial is the same by letters and figures alone, as it is looked up", () => {
  for (const seen of ["BK-1042 7", "bk10427", "BK/1042.7", "#BK_1042-7"]) expect(compareSerials(seen, "BK1042-7")).toBe("matches");
  expect(compareSerials("BK1042-8", "BK1042-7")).toBe("differs");
});

test("where no letter or figure is read or known there is nothing to compare", () => {
  for (const nothing of [null, "", " ", "-/-"]) {
    expect(compareSerials(nothing, "BK1042-7")).toBe("nothing-to-compare");
    expect(compareSerials("BK1042-7", nothing)).toBe("nothing-to-compare");
  }
});

test("of a pair either unit belongs to the claim, whichever was read first, and a stranger does not", () => {
  const pair = { serialExpected: "L-1", otherSerial: "S-2" };
  expect(matchSerials({ ...pair, serialSeen: "l1", otherSerialSeen: null })).toBe("matches");
  expect(matchSerials({ ...pair, serialSeen: "s2", otherSerialSeen: null })).toBe("other-of-pair");
  expect(matchSerials({ ...pair, serialSeen: "s2", otherSerialSeen: "L1" })).toBe("matches");
  expect(matchSerials({ ...pair, serialSeen: "X9", otherSerialSeen: null })).toBe("differs");
  expect(matchSerials({ serialExpected: null, otherSerial: "L-1", serialSeen: "S2", otherSerialSeen: null })).toBe("nothing-to-compare");
});

test("the unit that was sold is awaited, unless it is the pair's other one", () => {
  expect(serialAwaited({ unit: { serial: "L1" }, serial: "typed", otherSerial: null })).toBe("L1");
  expect(serialAwaited({ unit: { serial: "L1" }, serial: null, otherSerial: "l-1" })).toBeNull();
  expect(serialAwaited({ unit: null, serial: "typed", otherSerial: null })).toBe("typed");
});

test("of a pair the serials tell which unit is here, and which of two the bench measures", () => {
  const both = { pairUnit: "both", serialExpected: "L-1", otherSerial: "S-2" } as const;
  const large = { serialSeen: "L1", otherSerialSeen: null };
  const small = { serialSeen: "S2", otherSerialSeen: null };
  const two = { serialSeen: "L1", otherSerialSeen: "S2" };
  expect(pairUnitHere({ ...both, ...large })).toBe("large");
  expect(pairUnitHere({ ...both, ...small })).toBe("small");
  expect(pairUnitHere({ ...both, ...two })).toBe("both");
  expect(pairUnitMeasured({ ...both, ...large }, "small")).toBe("large");
  expect(pairUnitMeasured({ ...both, ...two }, "small")).toBe("small");
  expect(pairUnitMeasured({ ...both, ...two }, null)).toBe("both");
  // Complained of the small one alone: that is measured, whatever came with it.
  const ofSmall = { pairUnit: "small", serialExpected: "S-2", otherSerial: "L-1" } as const;
  expect(pairUnitHere({ ...ofSmall, ...large })).toBe("large");
  expect(pairUnitMeasured({ ...ofSmall, ...two }, "large")).toBe("small");
  expect(pairUnitHere({ ...ofSmall, serialSeen: null, otherSerialSeen: null })).toBe("small");
  expect(pairUnitMeasured({ ...ofSmall, ...small, pairUnit: null }, "small")).toBeNull();
});
