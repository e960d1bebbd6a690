/**
 * Times of the reports over a long history in a database of its own: `npm run bench -- report-scale [factor]`. A factor
 * of 1, the default, is 1,000,000 claims about 5,000,000 shipments; it takes some minutes and 8 GB of disk.
 */
import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import type { StaffActor } from "@/lib/access/actors";
import { createDatabase, startDatabase, withClient } from "@/lib/cli/database.mjs";
import { copyHistory, kitCode, vehicleId, vehiclesOf } from "./report-scale-data";

const BARE = `
  SELECT kit_revision_id, vehicle_id, sum(shipped), sum(claims) FROM (
    SELECT kit_revision_id, vehicle_id, units AS shipped, 0 AS claims FROM shipped_cell WHERE month BETWEEN $1 AND $2
    UNION ALL SELECT kit_revision_id, vehicle_id, 0, fit + kit + engine + unit + normal + transit + elsewhere + undecided + ended FROM claim_cell WHERE month BETWEEN $1 AND $2
  ) AS cell GROUP BY 1, 2`;

const PLAIN = `
  SELECT kit_revision_id, vehicle_id, sum(shipped), sum(claims) FROM (
    SELECT kit_revision_id, vehicle_id, count(*) AS shipped, 0 AS claims FROM shipment WHERE shipped_on >= $1 AND shipped_on < $2 GROUP BY 1, 2
    UNION ALL SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id), 0, count(*) FROM claim AS c JOIN shipment AS s ON s.id = c.shipment_id
      LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL
      WHERE c.stage NOT IN ('draft', 'merged') AND s.shipped_on >= $1 AND s.shipped_on < $2 GROUP BY 1, 2, v.attribution
  ) AS line GROUP BY 1, 2`;

const factor = Number(process.argv[3] ?? 1);
if (!(factor > 0 && factor <= 1)) throw new Error("report-scale needs a factor above 0, up to 1");
const size = { shipments: Math.round(5_000_000 * factor), claims: Math.round(1_000_000 * factor) };

const folder = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-bench-"));
const server = await startDatabase({ folder, disposable: true });
try {
  await createDatabase(server.urlOf("postgres"), "bench");
  const url = server.urlOf("bench");
  // Before anything of ours reads its settings.
  Object.assign(process.env, { DATABASE_URL: url, APP_ORIGIN: "http://127.0.0.1:3000", NEXTAUTH_SECRET: "a secret of forty characters for benches only", LOG_LEVEL: "silent", DATA_FOLDER: folder });
  await measure(url);
} finally {
  const { disconnect } = await import("@/lib/data/client");
  await disconnect();
  await server.stop();
  await rm(folder, { recursive: true, force: true });
  if (server.place !== folder) await rm(server.place, { recursive: true, force: true });
}

async function measure(url: string): Promise<void> {
  const { applyMigrations } = await import("@/lib/data/migrations");
  const { loadReferenceData } = await import("@/lib/data/reference-data");
  const { edition1 } = await import("@/lib/domain/diagnosis/edition-1");
  await applyMigrations(url);
  await loadReferenceData(edition1);
  await took(`${size.claims} claims about ${size.shipments} shipments, by COPY`, () => withClient(url, (client) => copyHistory(client, path.join(server.place, "copy"), size)));

  const { rebuildReportCells, refreshReportCells } = await import("@/lib/data/report-cells");
  const { connectionPool } = await import("@/lib/data/client");
  const query = (sql: string, values: unknown[] = []) => connectionPool().query(sql, values);
  await took("all cells made anew", rebuildReportCells);
  await query("VACUUM ANALYZE");
  const { rows } = await query(`SELECT (SELECT count(*) FROM shipped_cell) AS shipped, (SELECT count(*) FROM claim_cell) AS claims, (SELECT count(*) FROM cause_cell) AS causes, (SELECT count(*) FROM cost_cell) AS costs`);
  console.log(`cells: ${JSON.stringify(rows[0])}`);

  const { loadCausesReport } = await import("@/lib/operations/load-causes-report");
  const { loadCausesOfASelection } = await import("@/lib/operations/load-causes-of-a-selection");
  const { loadClaimsBehind } = await import("@/lib/operations/load-claims-behind");
  const { causesFilterSchema, claimsBehindFilterSchema, selectionFilterSchema } = await import("@/lib/inputs/report-filter");
  // Signing in needs a browser's request, which a bench has none of.
  const product = { kind: "staff", personId: "00000000-0000-4000-8000-000000000001", name: "Bench", role: "product" } as unknown as StaffActor;
  const now = new Date("2026-11-25T12:00:00Z");
  const fine = async (answer: Promise<{ ok: boolean }>) => {
    if (!(await answer).ok) throw new Error("the report was refused");
  };
  const matrix = (more: Record<string, string>) => () => fine(loadCausesReport(product, causesFilterSchema.parse(more), now));
  const selection = (more: Record<string, string>) => () => fine(loadCausesOfASelection(product, selectionFilterSchema.parse(more), now));
  const claims = (more: Record<string, string>) => () => fine(loadClaimsBehind(product, claimsBehindFilterSchema.parse(more)));

  const year = { from: "2025-12", to: "2026-11" };
  const years = { from: "2021-12", to: "2026-11" };
  const pair = { kit: kitCode(0), vehicle: vehicleId(vehiclesOf(0)[0] ?? 0) };
  console.log("\nserver time                                         median     worst");
  await time("matrix, twelve months", matrix(year));
  await time("matrix, all sixty months", matrix(years));
  await time("matrix, sixty months, one cause with probable", matrix({ ...years, cause: "C15", with: "probable" }));
  await time("matrix, sixty months, rows by revision", matrix({ ...years, by: "revision" }));
  await time("matrix, sixty months, one origin", matrix({ ...years, origin: "kit" }));
  await time("matrix, one batch", matrix({ ...years, batch: "BT0-2025-03" }));
  await time("matrix, one fitter", matrix({ ...years, fitter: "01980004-0000-7000-8000-000000000003" }));
  await time("matrix, months 0 to 2 in service", matrix({ ...years, serviceFrom: "0", serviceTo: "2" }));
  await time("matrix, one cause, months 0 to 2 in service", matrix({ ...years, cause: "C15", serviceFrom: "0", serviceTo: "2" }));
  await time("the same cells, bare SQL, sixty months", () => query(BARE, ["2021-12-01", "2026-11-01"]));
  await time("a plain aggregate over the tables, sixty months", () => query(PLAIN, ["2021-12-01", "2026-12-01"]), 3);
  await time("a plain aggregate over the tables, twelve months", () => query(PLAIN, ["2025-12-01", "2026-12-01"]), 3);
  await time("kit on vehicle, twelve months", selection({ ...year, ...pair }));
  await time("kit on vehicle, sixty months", selection({ ...years, ...pair }));
  await time("one kit on all vehicles, twelve months", selection({ ...year, kit: kitCode(0) }));
  await time("claims of a cause of kit on vehicle", claims({ ...years, ...pair, cause: "C01" }));
  await time("claims of a kit, the last page", claims({ ...year, kit: kitCode(0), page: "60" }));
  await time("all claims, first page", claims(years));

  console.log("\nquality of the desk");
  const { loadDeskClaims, loadDeskQuality } = await import("@/lib/operations/load-desk-quality");
  await time("desk, twelve months", () => fine(loadDeskQuality(product, year, now)));
  await time("desk, sixty months", () => fine(loadDeskQuality(product, years, now)));
  await time("desk, one kit, sixty months", () => fine(loadDeskQuality(product, { ...years, kit: kitCode(0) }, now)));
  await time("claims answered late, twelve months", () => fine(loadDeskClaims(product, { ...year, figure: "late" }, { skip: 0, take: 100 }, now)));

  console.log("\nsignals");
  const { lookForSignals } = await import("@/lib/operations/look-for-signals");
  const { loadSignals } = await import("@/lib/operations/load-signals");
  const { readSales } = await import("@/lib/data/signals");
  const { findSignals } = await import("@/lib/domain/reporting/signals");
  const { reckonInThread } = await import("@/lib/jobs/reckon-in-thread");
  await time("units and claims read from the cells", () => readSales("Europe/Berlin", "2026-11-25"), 3);
  const sales = await readSales("Europe/Berlin", "2026-11-25");
  console.log(`lines: ${sales.shipped.length} of units, ${sales.claims.length} of claims`);
  await time("the list of signals made of them", async () => findSignals(sales), 1);
  const watch = watchMemory();
  const found = await timed("the nightly look as the worker makes it, in its thread", () => lookForSignals({ reckon: reckonInThread }, now));
  console.log(`found: ${JSON.stringify(found)}; ${watch.end()}`);
  await time("signals page", () => fine(loadSignals(product, {}, now)));

  console.log("\nkept fresh");
  const reopen = (count: number) => query(`UPDATE verdict SET superseded_at = decided_at WHERE id IN (SELECT id FROM verdict WHERE superseded_at IS NULL ORDER BY id DESC LIMIT ${count})`);
  for (const count of [1, 100, 2_000]) {
    await reopen(count);
    await time(`${count} reopened verdicts taken over`, refreshReportCells, 1);
  }
}

async function time(what: string, act: () => Promise<unknown>, times = 9): Promise<void> {
  const taken: number[] = [];
  if (times > 1) await act();
  for (let count = 0; count < times; count += 1) {
    const began = performance.now();
    await act();
    taken.push(performance.now() - began);
  }
  taken.sort((a, b) => a - b);
  const ms = (value: number | undefined) => `${(value ?? 0).toFixed(1)} ms`.padStart(10);
  console.log(`${what.padEnd(52)}${ms(taken[Math.floor(times / 2)])}${ms(taken.at(-1))}`);
}

/** Times one act whose answer is wanted. */
async function timed<T>(what: string, act: () => Promise<T>): Promise<T> {
  const began = performance.now();
  const answer = await act();
  console.log(`${what.padEnd(52)}${(performance.now() - began).toFixed(0).padStart(7)} ms`);
  return answer;
}

/** What this process, threads included, holds at the most, and how long nothing else could run in it. */
function watchMemory(): { end: () => string } {
  const before = process.memoryUsage.rss();
  let most = before;
  let longest = 0;
  let last = performance.now();
  const timer = setInterval(() => {
    most = Math.max(most, process.memoryUsage.rss());
    longest = Math.max(longest, performance.now() - last - 100);
    last = performance.now();
  }, 100);
  return {
    end: () => {
      clearInterval(timer);
      return `${Math.round((most - before) / 2 ** 20)} MB more than before, blocked for ${longest.toFixed(0)} ms at most`;
    },
  };
}

async function took(what: string, act: () => Promise<unknown>): Promise<void> {
  const began = performance.now();
  await act();
  console.log(`${what}: ${((performance.now() - began) / 1000).toFixed(1)} s`);
}
