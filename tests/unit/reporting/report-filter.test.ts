import { describe, expect, it } from "vitest";
import { causesFilterSchema, claimsBehindFilterSchema, readFilter } from "@/lib/inputs/report-filter";

const usual = { from: "2025-12", to: "2026-11" };
const read = (query: Record<string, string | string[]>) => readFilter(causesFilterSchema, query, usual);

describe("the filter of a report", () => {
  it("is the usual period, rows by kit, where the address says nothing", () => {
    expect(read({})).toEqual({ ok: true, filter: { ...usual, by: "kit" } });
    expect(read({ from: "", kit: " ", strange: "1" })).toEqual({ ok: true, filter: { ...usual, by: "kit" } });
  });

  it("takes the first of a repeated parameter", () => {
    expect(read({ from: ["2026-01", "2026-05"] })).toMatchObject({ ok: true, filter: { from: "2026-01" } });
  });

  it.each([
    [{ from: "2026-13" }, "from"],
    [{ from: "last year" }, "from"],
    [{ to: "1999-01" }, "to"],
    [{ from: "2026-10", to: "2026-01" }, "to"],
    [{ vehicle: "'; DROP TABLE claim" }, "vehicle"],
    [{ cause: "drain" }, "cause"],
    [{ by: "batch" }, "by"],
    [{ kit: "x".repeat(10_000) }, "kit"],
  ])("is refused with a message at the field: %j", (query, field) => {
    const answer = read(query);
    expect(answer.ok).toBe(false);
    if (!answer.ok) {
      expect(Object.keys(answer.errors)).toEqual([field]);
      expect(answer.given).toMatchObject(query);
    }
  });

  it.each([[{ page: "0" }], [{ page: "1.5" }], [{ page: "many" }], [{ role: "guilty" }], [{ outcome: "other" }], [{ shipment: "some" }]])("of the claims behind a figure is refused: %j", (query) => {
    expect(readFilter(claimsBehindFilterSchema, query, usual)).toMatchObject({ ok: false, errors: { [Object.keys(query)[0] ?? ""]: expect.any(String) } });
  });
});
