import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { IMPORT_FIELDS, importField } from "@/lib/domain/imports/fields";
import { IMPORT_KINDS } from "@/lib/domain/imports/kinds";
import { bareHeading, columnLetter, matchColumns } from "@/lib/domain/imports/match-columns";
import { importProgress } from "@/lib/domain/imports/progress";
import { dateOrderOf, readValue } from "@/lib/domain/imports/read-value";
import { readRow } from "@/lib/domain/imports/read-row";

const TODAY = "2026-11-25";
const shipped = importField("shipments", "shipped_on");
const read = (kind: "shipments" | "turbo_models" | "vehicles", key: string, cell: string, order: "day-month-year" | "month-day-year" = "day-month-year") => {
  const result = readValue(importField(kind, key), cell, order, TODAY);
  return result.ok ? result.value : result.problem;
};

describe("a date", () => {
  test.each([
    ["2026-03-01", "day-month-year", "2026-03-01"],
    ["2026-03-01T10:20:00Z", "day-month-year", "2026-03-01"],
    ["2026/3/1", "month-day-year", "2026-03-01"],
    ["3.11.2026", "day-month-year", "2026-11-03"],
    ["3. 11. 2026", "day-month-year", "2026-11-03"],
    ["03/04/26", "day-month-year", "2026-04-03"],
    ["03/04/26", "month-day-year", "2026-03-04"],
    ["03/04/2026 08:15", "month-day-year", "2026-03-04"],
    ["29.2.2024", "day-month-year", "2024-02-29"],
    ["29.2.2023", "day-month-year", "not-a-date"],
    ["31/12/2025", "month-day-year", "not-a-date"],
    ["1899-12-30", "day-month-year", "before-1990"],
    ["2026-11-26", "day-month-year", "in-the-future"],
    ["45000", "day-month-year", "not-a-date"],
    ["", "day-month-year", "missing"],
  ] as const)("%j read %s is %s", (cell, order, value) => {
    expect(read("shipments", "shipped_on", cell, order)).toBe(value);
  });

  test("written year first comes back as it was, whatever the order", () => {
    fc.assert(
      fc.property(fc.date({ min: new Date("1990-01-01"), max: new Date("2026-11-24"), noInvalidDate: true }), fc.constantFrom("day-month-year" as const, "month-day-year" as const), (date, order) => {
        const day = date.toISOString().slice(0, 10);
        expect(readValue(shipped, day, order, TODAY)).toEqual({ ok: true, value: day });
      }),
    );
  });

  test("may lie ahead where it is a plan", () => {
    expect(readValue(importField("kits", "introduced_on"), "2027-01-01", "day-month-year", TODAY)).toEqual({ ok: true, value: "2027-01-01" });
  });

  test("tells its order by a figure over 12, or leaves it open", () => {
    expect(dateOrderOf(["03/04/2026", "03/17/2026"])).toBe("month-day-year");
    expect(dateOrderOf(["17.3.2026"])).toBe("day-month-year");
    expect(dateOrderOf(["03/04/2026", "2026-12-31", ""])).toBeNull();
  });
});

describe("a value", () => {
  test.each([
    ["turbo_models", "axial_play_min_mm", "0,03", "0.03"],
    ["turbo_models", "axial_play_min_mm", "0.030", "0.030"],
    ["turbo_models", "axial_play_min_mm", "1.234,5", "not-a-number"],
    ["turbo_models", "axial_play_min_mm", "0.03 mm", "not-a-number"],
    ["turbo_models", "axial_play_min_mm", "1e400", "not-a-number"],
    ["turbo_models", "bearing", "Ball-Bearing", "ball"],
    ["turbo_models", "bearing", "constructor", "not-a-choice"],
    ["vehicles", "year_from", "26", "not-a-year"],
    ["shipments", "customer_email", " Runa@Example.ORG ", "runa@example.org"],
    ["shipments", "customer_email", "runa@example", "not-an-address"],
    ["shipments", "country", "de", "DE"],
    ["shipments", "country", "Germany", "not-a-country"],
    ["shipments", "customer_name", "Grün 🙂\nund Söhne", "Grün 🙂 und Söhne"],
    ["shipments", "customer_name", "a\u0000b", "not-readable"],
    ["shipments", "customer_name", "a\ufffdb", "not-readable"],
    ["shipments", "customer_name", "x".repeat(201), "too-long"],
    ["shipments", "customer_name", "'=1+1", "=1+1"],
  ] as const)("of %s, %s %j is read as %j", (kind, key, cell, value) => {
    expect(read(kind, key, cell)).toBe(value);
  });
});

describe("columns", () => {
  test.each(IMPORT_KINDS)("of the sample file of %s all find their field", (kind) => {
    const matched = matchColumns(kind, IMPORT_FIELDS[kind].map(({ name }) => name));
    expect(Object.values(matched)).toEqual(IMPORT_FIELDS[kind].map((_, column) => column));
  });

  test.each(IMPORT_KINDS)("of the sample file of %s hold rows without a fault", (kind) => {
    const columns = matchColumns(kind, IMPORT_FIELDS[kind].map(({ name }) => name));
    for (const row of [0, 1]) {
      const cells = IMPORT_FIELDS[kind].map(({ examples }) => examples[row] ?? "");
      expect(readRow(kind, cells, { columns, dateOrder: "day-month-year", width: cells.length, today: TODAY }).problems).toEqual([]);
    }
  });

  test("of two fields are never one", () => {
    fc.assert(
      fc.property(fc.constantFrom(...IMPORT_KINDS), fc.array(fc.constantFrom("Name", "Customer", "Date", "Kit", "SKU", "Model", "Turbo", "Number", "E-Mail", ""), { maxLength: 12 }), (kind, headings) => {
        const taken = Object.values(matchColumns(kind, headings)).filter((column) => column !== null);
        expect(new Set(taken).size).toBe(taken.length);
      }),
    );
  });

  test("are told whatever signs, accents and case their headings have, and named as in a spreadsheet", () => {
    expect(bareHeading(" Sérial-No. ")).toBe("serialno");
    expect([0, 25, 26, 701, 702].map(columnLetter)).toEqual(["A", "Z", "AA", "ZZ", "AAA"]);
  });
});

test("progress only grows, and ends before 1", () => {
  const steps = [
    { phase: null, bytesRead: 0 },
    { phase: "reading", bytesRead: 0 },
    { phase: "reading", bytesRead: 900 },
    { phase: "reading", bytesRead: 1000 },
    { phase: "checking", bytesRead: 1000 },
    { phase: "writing", bytesRead: 1000 },
  ] as const;
  const shares = steps.map((step) => importProgress({ ...step, bytes: 1000 }));
  expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  expect(shares.at(-1)).toBeLessThan(1);
});
