import { unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { parse } from "csv-parse/sync";
import { csvFile } from "@/lib/files/csv";
import { fileTable } from "@/lib/files/table";
import { xlsxFile } from "@/lib/files/xlsx";

const FORMULAS = ["=1+1", "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1", "=cmd|'/c calc'!A0", "\uFF1D1+1"];
const table = fileTable({ text: "=Heading", figure: "Figure" }, [...FORMULAS.map((text) => ({ text, figure: -1.5 })), { text: "two\nlines", figure: null }, { text: 'a "quoted", text\nin two lines & <tags> 🙂\u0000\u0008', figure: null }]);

describe("a table as CSV", () => {
  const cells: string[][] = parse(csvFile(table), { bom: true, relax_column_count: true });

  test("holds no text that a spreadsheet would reckon, and figures as figures", () => {
    for (const [text] of cells.slice(1)) expect(text).not.toMatch(/^[=+\-@\t\r\uFF1D]/);
    expect(cells[1]).toEqual(["'=1+1", "-1.5"]);
  });

  test("begins with the mark of UTF-8 and keeps quotes and line breaks", () => {
    expect(csvFile(table).startsWith("\ufeff")).toBe(true);
    expect(cells.at(-2)?.[0]).toBe("two\nlines");
    expect(cells.at(-1)?.[0]).toContain('a "quoted", text\nin two lines');
  });
});

describe("a table as a workbook", () => {
  test("holds every text as text, no formula, and figures as figures", async () => {
    const files = unzipSync(await xlsxFile(table));
    const sheet = Buffer.from(files["xl/worksheets/sheet1.xml"] ?? []).toString("utf8");
    const strings = Buffer.from(files["xl/sharedStrings.xml"] ?? []).toString("utf8");
    expect(sheet).not.toMatch(/<f[ >]/);
    expect(sheet.match(/<v>-1.5<\/v>/g)).toHaveLength(FORMULAS.length);
    expect(strings + sheet).toContain("=1+1");
    expect(strings + sheet).toContain("&amp; &lt;tags&gt; 🙂");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not be there.
    expect(strings + sheet).not.toMatch(/[\u0000-\u0008]/);
  });

  test("holds a day as a day, and what is none as text", async () => {
    const files = unzipSync(await xlsxFile(fileTable({ on: "On" }, [{ on: "2026-11-25" }, { on: "2026-02-31" }, { on: "2026-11" }])));
    const sheet = Buffer.from(files["xl/worksheets/sheet1.xml"] ?? []).toString("utf8");
    const strings = Buffer.from(files["xl/sharedStrings.xml"] ?? []).toString("utf8");
    // Days since the last of 1899, as a workbook counts them: 1 Jan 2026 is 46023 (ECMA-376 part 1, 18.17.4, from memory).
    expect(sheet).toContain(`<v>${46_023 + (Date.UTC(2026, 10, 25) - Date.UTC(2026, 0, 1)) / 86_400_000}</v>`);
    expect(strings).not.toContain("2026-11-25");
    expect(strings).toContain("2026-02-31");
    expect(strings).toContain(">2026-11<");
  });

  test("of no rows is one with its headings", async () => {
    const files = unzipSync(await xlsxFile(fileTable({ a: "Only heading" }, [])));
    expect(Object.values(files).some((file) => Buffer.from(file).toString("utf8").includes("Only heading"))).toBe(true);
  });
});
