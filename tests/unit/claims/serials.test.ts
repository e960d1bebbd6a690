import { expect, test } from "vitest";
import { compareSerials } from "@/lib/domain/claims/serials";

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
