import { describe, expect, test } from "vitest";
import { DISPOSITIONS, dispositionDoubts } from "@/lib/domain/claims/dispositions";

const SOUND = { isInspected: true, attribution: null, standing: null } as const;
const TODAY = "2026-03-01";

describe("a disposition", () => {
  test.each(DISPOSITIONS)("%s of an inspected unit stands by itself", (kind) => {
    expect(dispositionDoubts(kind, SOUND, TODAY)).toEqual([]);
  });

  test.each(DISPOSITIONS)("%s of a unit that nobody inspected is doubted", (kind) => {
    expect(dispositionDoubts(kind, { ...SOUND, isInspected: false }, TODAY)).toContain("not-inspected");
  });

  test("puts no unit back on the shelf that was found defective, unless it was repaired", () => {
    expect(dispositionDoubts("restocked", { ...SOUND, attribution: "unit" }, TODAY)).toEqual(["found-defective"]);
    expect(dispositionDoubts("restocked", { ...SOUND, attribution: "fit" }, TODAY)).toEqual([]);
    expect(dispositionDoubts("restocked", { ...SOUND, attribution: "unit", standing: { kind: "repaired", keepUntil: null } }, TODAY)).toEqual([]);
  });

  test("lets evidence go the day after its last one, and be kept longer any day", () => {
    const held = (keepUntil: string) => ({ ...SOUND, standing: { kind: "held_as_evidence", keepUntil } as const });
    expect(dispositionDoubts("scrapped", held("2026-03-01"), TODAY)).toEqual(["evidence-kept"]);
    expect(dispositionDoubts("scrapped", held("2026-02-28"), TODAY)).toEqual([]);
    expect(dispositionDoubts("held_as_evidence", held("2026-03-31"), TODAY)).toEqual([]);
  });

  test.each(["returned_to_customer", "restocked", "scrapped"] as const)("of a unit already %s is doubted", (kind) => {
    expect(dispositionDoubts("sent_to_supplier", { ...SOUND, standing: { kind, keepUntil: null } }, TODAY)).toEqual(["gone-already"]);
  });
});
