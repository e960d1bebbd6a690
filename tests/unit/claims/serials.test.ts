import { expect, test } from "vitest";
import { compareSerials, matchSerials, serialAwaited } from "@/lib/domain/claims/serials";

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
