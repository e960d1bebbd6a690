import { Readable } from "node:stream";
import type { StaffActor } from "@/lib/access/actors";
import { database, disconnect, inTransaction } from "@/lib/data/client";
import { readCsv } from "@/lib/files/csv-reading";
import { carryOutImports } from "@/lib/operations/carry-out-imports";
import { loadImport } from "@/lib/operations/load-import";
import { startImport } from "@/lib/operations/start-import";
import { uploadImport } from "@/lib/operations/upload-import";

/** The part of the bench that has the database in its settings. */
const ROWS = Number(process.argv[2]);
const KITS = 20;
const BOUNDARY = "bench";

const { id: personId, name, role } = await database().person.create({ data: { name: "Bench", email: "bench@example.com", role: "admin" } });
// Signing in needs a server of pages around it.
const admin = { kind: "staff", personId, name, role } as StaffActor;
await database().turboModel.create({ data: { code: "TX40", name: "Example", bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.1, radialPlayMaxMm: 0.16, drainBoreMm: 16 } });
const { id: turboModelId } = await database().turboModel.findFirstOrThrow();
for (let kit = 0; kit < KITS; kit += 1) {
  await database().kit.create({ data: { code: `KX-${kit}`, name: `Kit ${kit}`, turboModelId, revisions: { create: ["A", "B", "C"].map((revision, index) => ({ revision, introducedOn: new Date(Date.UTC(2023 + index, 0, 1)) })) } } });
  await database().vehicle.create({ data: { make: "Examplar", model: `Model ${kit}`, engine: "2.0 D", fuel: "diesel", yearFrom: 2010 } });
}

/** One row in eight is a kit alone, one in five without its vehicle. */
function* lines(from: number, rows: number): Generator<string> {
  yield "Order;E-mail;Customer;Country;Shipped on;Kit;Serial;Batch;Make;Model;Engine\r\n";
  for (let row = from; row < from + rows; row += 1) {
    const kit = row % KITS;
    const day = new Date(Date.UTC(2023, 0, 1) + (row % 1000) * 86_400_000).toISOString().slice(0, 10).split("-").reverse().join(".");
    const unit = row % 8 === 0 ? ";" : `TX40-${row};${Math.floor(row / 500)}`;
    const vehicle = row % 5 === 0 ? ";;" : `Examplar;Model ${kit};2.0 D`;
    yield `X-${Math.floor(row / 2)};customer${Math.floor(row / 2)}@example.org;"Customer ${Math.floor(row / 2)}";DE;${day};KX-${kit};${unit};${vehicle}\r\n`;
  }
}

async function* form(from: number, rows: number): AsyncGenerator<Buffer> {
  yield Buffer.from(`--${BOUNDARY}\r\nContent-Disposition: form-data; name="kind"\r\n\r\nshipments\r\n--${BOUNDARY}\r\nContent-Disposition: form-data; name="file"; filename="bench.csv"\r\n\r\n`);
  for await (const piece of inPieces(lines(from, rows))) yield piece;
  yield Buffer.from(`\r\n--${BOUNDARY}--\r\n`);
}

function* inPieces(from: Iterable<string>): Generator<Buffer> {
  let waiting = "";
  for (const line of from) {
    waiting += line;
    if (waiting.length > 65_536) {
      yield Buffer.from(waiting);
      waiting = "";
    }
  }
  yield Buffer.from(waiting);
}

/** How long work takes, and by how much the memory of this process grows at most. */
async function measure<T>(name: string, rows: number, work: () => Promise<T>): Promise<T> {
  global.gc?.();
  const before = process.memoryUsage().rss;
  let peak = before;
  const sampler = setInterval(() => {
    peak = Math.max(peak, process.memoryUsage().rss);
  }, 20);
  const began = performance.now();
  const result = await work();
  const seconds = (performance.now() - began) / 1000;
  clearInterval(sampler);
  console.log(`${name.padEnd(44)} ${seconds.toFixed(1).padStart(6)} s ${Math.round(rows / seconds).toLocaleString("en").padStart(9)} rows/s, peak ${Math.round(peak / 1e6)} MB, ${Math.round((peak - before) / 1e6)} MB more than before`);
  return result;
}

async function upload(from: number, rows: number): Promise<string> {
  const uploaded = await uploadImport(admin, { contentType: `multipart/form-data; boundary=${BOUNDARY}`, body: form(from, rows) });
  if (!uploaded.ok) throw new Error(uploaded.reason);
  const loaded = await loadImport(admin, uploaded.importId);
  if (!loaded.ok) throw new Error(loaded.reason);
  const started = await startImport(admin, uploaded.importId, { ...loaded.file.reading, columns: { ...loaded.file.reading.columns } });
  if (!started.ok) throw new Error(started.reason);
  return uploaded.importId;
}

async function toEnd(importId: string): Promise<void> {
  await carryOutImports();
  const { state, rows, added, alreadyThere, faulty, reason } = await database().import.findUniqueOrThrow({ where: { id: importId } });
  console.log(`   ${state}${reason ? `, ${reason}` : ""}: ${rows} rows, ${added} added, ${alreadyThere} there already, ${faulty} faulty`);
}

const small = ROWS / 4;
const smallId = await upload(10_000_000, small);
await measure(`${small} shipments brought in`, small, () => toEnd(smallId));
const id = await measure(`${ROWS} shipments uploaded`, ROWS, () => upload(0, ROWS));
await measure(`${ROWS} shipments brought in`, ROWS, () => toEnd(id));
const again = await upload(0, ROWS);
await measure("the same file a second time", ROWS, () => toEnd(again));
await measure("the same rows read and put in unchecked", ROWS, () =>
  inTransaction(async (db) => {
    await db.$executeRaw`CREATE TEMP TABLE unchecked (cells text[]) ON COMMIT DROP`;
    let waiting: (readonly string[])[] = [];
    const send = async () => {
      await db.$executeRaw`INSERT INTO unchecked SELECT ARRAY(SELECT json_array_elements_text(row)) FROM json_array_elements(${JSON.stringify(waiting)}::json) AS row`;
      waiting = [];
    };
    for await (const { cells } of readCsv(Readable.from(inPieces(lines(0, ROWS))), { encoding: "utf-8", delimiter: ";" })) {
      waiting.push(cells);
      if (waiting.length === 2000) await send();
    }
    await send();
  }, 600_000),
);
await disconnect();
