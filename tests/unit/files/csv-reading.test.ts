import { Readable } from "node:stream";
import { describe, expect, test } from "vitest";
import { TextInspector } from "@/lib/files/csv-encoding";
import { BrokenCsv, type CsvRow, delimiterOf, readCsv, startAsText } from "@/lib/files/csv-reading";
import { PartsOfForm } from "@/lib/files/posted-file";

async function rowsOf(content: string | Buffer, encoding: "utf-8" | "utf-16le" | "utf-16be" | "windows-1252" = "utf-8", piece = 3): Promise<CsvRow[]> {
  const bytes = Buffer.from(content);
  const pieces = Array.from({ length: Math.ceil(bytes.length / piece) }, (_, at) => bytes.subarray(at * piece, (at + 1) * piece));
  const rows: CsvRow[] = [];
  for await (const row of readCsv(Readable.from(pieces), { encoding, delimiter: ";" })) rows.push(row);
  return rows;
}

async function inspected(content: Buffer) {
  const inspector = new TextInspector();
  for (let at = 0; at < content.length; at += 5) inspector.take(content.subarray(at, at + 5));
  const text = await inspector.end();
  return text.ok ? text.encoding : text.reason;
}

const TEXT = "Kund\u00e9;Gr\u00fcn\r\n1;2\r\n";
const bigEndian = (text: string) => Buffer.from(text, "utf16le").swap16();

describe("a CSV file", () => {
  test("is read row by row with the line each begins on, however the bytes are cut", async () => {
    const text = '\ufeffa;b\r\n1;"x\ny"\n\n2;🙂\n3;"say ""so"""\n4;3" hose';
    for (const piece of [1, 2, 3, 7, 1000]) {
      expect(await rowsOf(text, "utf-8", piece)).toEqual([
        { line: 1, cells: ["a", "b"] },
        { line: 2, cells: ["1", "x\ny"] },
        { line: 5, cells: ["2", "🙂"] },
        { line: 6, cells: ["3", 'say "so"'] },
        { line: 7, cells: ["4", '3" hose'] },
      ]);
    }
  });

  test("that is broken says how", async () => {
    await expect(rowsOf('a;b\n1;"x')).rejects.toThrow(new BrokenCsv("quotes-broken"));
    await expect(rowsOf(`a;b\n1;"${"z".repeat(200_000)}`, "utf-8", 10_000)).rejects.toThrow(new BrokenCsv("row-too-long"));
    await expect(rowsOf(Buffer.from([0x61, 0x3b, 0xe4, 0x0a]))).rejects.toThrow(new BrokenCsv("encoding-broken"));
  });

  test.each([
    ["utf-8", Buffer.from(TEXT)],
    ["utf-8", Buffer.from(`\ufeff${TEXT}`)],
    ["utf-16le", Buffer.from(`\ufeff${TEXT}`, "utf16le")],
    ["utf-16le", Buffer.from(TEXT, "utf16le")],
    ["utf-16be", bigEndian(`\ufeff${TEXT}`)],
    ["windows-1252", Buffer.from(TEXT, "latin1")],
  ] as const)("in %s is recognised and read alike", async (encoding, bytes) => {
    expect(await inspected(bytes)).toBe(encoding);
    expect((await rowsOf(bytes, encoding)).map(({ cells }) => cells)).toEqual([["Kundé", "Grün"], ["1", "2"]]);
  });

  test("in Windows-1252 is told by a sign at its very end", async () => {
    expect(await inspected(Buffer.concat([Buffer.alloc(200_000, "a;b\n"), Buffer.from([0xfc])]))).toBe("windows-1252");
  });

  test("shows whole lines only of a beginning that was cut", () => {
    expect(startAsText(Buffer.from("a;b\n1;2\n3;\u00fc").subarray(0, 11), "utf-8", false)).toBe("a;b\n1;2\n");
  });

  test.each([["Order;Customer, name;Kit", ";"], ["a,b;c,d", ","], ["a\tb", "\t"], ['"a;b;c",d', ","], ["one", ","]] as const)("with the heading %j is parted by %j", (heading, delimiter) => {
    expect(delimiterOf(heading)).toBe(delimiter);
  });
});

test("a posted form is taken apart the same wherever it is cut", () => {
  const form = Buffer.from('--xyz\r\nContent-Disposition: form-data; name="kind"\r\n\r\nkits\r\n--xyz\r\nContent-Disposition: form-data; name="file"; filename="a.csv"\r\nContent-Type: text/csv\r\n\r\na\r\n--xy\r\n--x\r\n--xyz--\r\n');
  for (let piece = 1; piece <= form.length; piece += 1) {
    const parts = new PartsOfForm("xyz");
    const read: Record<string, string> = {};
    for (let at = 0; at < form.length; at += piece) for (const { part, content } of parts.take(form.subarray(at, at + piece))) read[part.name] = (read[part.name] ?? "") + content.toString();
    expect(read).toEqual({ kind: "kits", file: "a\r\n--xy\r\n--x" });
    expect(parts.isDone).toBe(true);
  }
});
