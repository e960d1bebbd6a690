import "server-only";
import type { Readable } from "node:stream";
import { CsvError, parse } from "csv-parse";
import { parse as parseAtOnce } from "csv-parse/sync";
import { DELIMITERS, type Delimiter, type Encoding } from "@/lib/domain/imports/reading";

export interface CsvRow {
  /** On which it begins, as an editor counts. */
  line: number;
  cells: readonly string[];
}

/** The file breaks the rules of CSV, or is not in its encoding. */
export class BrokenCsv extends Error {
  constructor(readonly reason: "quotes-broken" | "row-too-long" | "encoding-broken") {
    super(`the file cannot be read: ${reason}`);
  }
}

/** A longer one is the rest of the file after a quotation mark that nothing closes. */
const LONGEST_ROW = 100_000;

const rules = (delimiter: Delimiter) => ({ delimiter, record_delimiter: ["\r\n", "\n", "\r"], relax_column_count: true, relax_quotes: true, skip_empty_lines: true, max_record_size: LONGEST_ROW, bom: true, info: true });

/**
 * The rows of a CSV file one after the other, in bounded memory; the heading line is the first.
 *
 * @param onBytes told of each piece that is read
 * @throws BrokenCsv
 */
export async function* readCsv(file: Readable, { encoding, delimiter }: { encoding: Encoding; delimiter: Delimiter }, onBytes: (count: number) => void = () => {}): AsyncGenerator<CsvRow> {
  const parser = parse(rules(delimiter));
  const feed = async () => {
    const decoder = new TextDecoder(encoding, { fatal: true });
    for await (const chunk of file as AsyncIterable<Buffer>) {
      onBytes(chunk.length);
      if (!parser.write(decoder.decode(chunk, { stream: true }))) await onceDrained(parser);
      if (parser.destroyed) return;
    }
    parser.end(decoder.decode());
  };
  const fed = feed().catch((error: unknown) => parser.destroy(error instanceof TypeError ? new BrokenCsv("encoding-broken") : error as Error));
  try {
    for await (const parsed of parser as AsyncIterable<Parsed>) yield rowOf(parsed);
  } catch (error) {
    throw error instanceof CsvError ? new BrokenCsv(error.code === "CSV_MAX_RECORD_SIZE" ? "row-too-long" : "quotes-broken") : error;
  } finally {
    parser.destroy();
    file.destroy();
    await fed;
  }
}

interface Parsed {
  record: string[];
  info: { lines: number };
}

/** The parser tells the line on which a row ends. */
function rowOf({ record, info }: Parsed): CsvRow {
  const breaks = record.reduce((count, cell) => count + (cell.includes("\n") || cell.includes("\r") ? cell.split(/\r\n|\n|\r/).length - 1 : 0), 0);
  return { line: info.lines - breaks, cells: record };
}

function onceDrained(parser: ReturnType<typeof parse>): Promise<void> {
  return new Promise((resolve) => {
    const go = () => {
      parser.off("drain", go).off("close", go).off("error", go);
      resolve();
    };
    parser.on("drain", go).on("close", go).on("error", go);
  });
}

/** The first bytes of a file, and whether they are all of it. */
export async function startOf(file: Readable, most: number): Promise<{ start: Buffer; isWhole: boolean }> {
  const chunks: Buffer[] = [];
  let read = 0;
  for await (const chunk of file as AsyncIterable<Buffer>) {
    chunks.push(chunk);
    read += chunk.length;
    if (read > most) break;
  }
  return { start: Buffer.concat(chunks).subarray(0, most), isWhole: read <= most };
}

/** The first lines of a file as text; what is left of a sign or a line at the cut is dropped. */
export function startAsText(start: Uint8Array, encoding: Encoding, isWhole: boolean): string {
  const text = new TextDecoder(encoding).decode(start);
  if (isWhole) return text;
  const end = Math.max(text.lastIndexOf("\n"), text.lastIndexOf("\r"));
  return end === -1 ? text : text.slice(0, end + 1);
}

/**
 * The first rows of a text, as far as they follow the rules: what is broken is told when all of it is read.
 *
 * @param most how many rows, the heading line among them
 */
export function firstRows(text: string, delimiter: Delimiter, most: number): CsvRow[] {
  return (parseAtOnce(text, { ...rules(delimiter), to: most, skip_records_with_error: true }) as unknown as Parsed[]).map(rowOf);
}

/**
 * The sign that parts the columns: the one that parts the heading line into most.
 *
 * @example delimiterOf('Order;Customer, name;Kit') === ";"
 */
export function delimiterOf(text: string): Delimiter {
  const counts = DELIMITERS.map((delimiter) => ({ delimiter, columns: firstRows(text, delimiter, 1)[0]?.cells.length ?? 0 }));
  return counts.reduce((best, one) => (one.columns > best.columns ? one : best)).delimiter;
}
