import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { refreshReportCells } from "@/lib/data/report-cells";
import { makeReference } from "@/lib/domain/claims/reference";
import { eachMonthOf, monthsLater } from "@/lib/domain/reporting/month";
import { csvFile } from "@/lib/files/csv";
import { claimsBehindFilterSchema } from "@/lib/inputs/report-filter";
import { forecastFilterSchema, monthsFilterSchema, toClaimFilterSchema } from "@/lib/inputs/time-filter";
import { exportForecast, exportMonthsReport, exportTimeToClaim } from "@/lib/operations/export-time-reports";
import { loadClaimsBehind } from "@/lib/operations/load-claims-behind";
import { loadForecast } from "@/lib/operations/load-forecast";
import { loadMonthsReport } from "@/lib/operations/load-months-report";
import { loadTimeToClaim } from "@/lib/operations/load-time-to-claim";
import { aStaffActor } from "@/tests/builders/a-person";

const NOW = new Date("2026-11-15T12:00:00Z");
const PERIOD = { from: "2025-01", to: "2026-11" };
const SHIPPED = eachMonthOf({ from: "2025-01", to: "2026-10" });
const ids = { vehicle: randomUUID(), revision: randomUUID(), other: randomUUID(), neverSold: randomUUID() };
let product: StaffActor;

const months = (more: object = {}) => loadMonthsReport(product, monthsFilterSchema.parse({ ...PERIOD, ...more }), NOW);
const lives = (more: object = {}) => loadTimeToClaim(product, toClaimFilterSchema.parse({ ...PERIOD, ...more }), NOW);
const toCome = (more: object = {}) => loadForecast(product, forecastFilterSchema.parse({ ...PERIOD, ...more }), NOW);

/** Its value, or the test fails with the reason. */
async function told<Answer extends { ok: boolean }>(answer: Promise<Answer>): Promise<Extract<Answer, { ok: true }>> {
  const value = await answer;
  if (!value.ok) throw new Error(JSON.stringify(value));
  // The compiler does not narrow a type parameter by its field.
  return value as Extract<Answer, { ok: true }>;
}

/** Every number anywhere in it. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return value && typeof value === "object" ? Object.values(value).flatMap(numbersIn) : [];
}

/** Each month twenty units of each of two kits, half of them for a vehicle not known; of the first kit three claims a month, filed one, two and six months later. */
beforeAll(async () => {
  product = await aStaffActor("product");
  const support = await aStaffActor("support");
  await database().vehicle.create({ data: { id: ids.vehicle, make: "Make", model: "Hauler", engine: "3.0 D", fuel: "diesel", yearFrom: 2010 } });
  for (const [code, id] of [
    ["K-1", ids.revision],
    ["K-2", ids.other],
    ["K-3", ids.neverSold],
  ] as const)
    await database().kit.create({ data: { code, name: "Kit", revisions: { create: { id, revision: "A", introducedOn: new Date("2024-12-01") } } } });
  const order = await database().order.create({ data: { number: "O", customerEmail: "customer@example.com", customerName: "Customer", country: "DE", placedOn: new Date("2024-12-30") } });
  const shipments = SHIPPED.flatMap((month) =>
    [ids.revision, ids.other].flatMap((kitRevisionId) => Array.from({ length: 20 }, (_, place) => ({ id: randomUUID(), orderId: order.id, kitRevisionId, vehicleId: place % 2 ? null : ids.vehicle, shippedOn: new Date(`${month}-10`) }))),
  );
  await database().shipment.createMany({ data: shipments });
  for (const month of SHIPPED) {
    const own = shipments.filter((shipment) => shipment.kitRevisionId === ids.revision && shipment.shippedOn.toISOString().startsWith(month) && shipment.vehicleId);
    for (const [place, delay] of [1, 2, 6].entries()) {
      const filed = monthsLater(month, delay);
      if (filed > "2026-10") continue;
      const id = randomUUID();
      const isDecided = filed < "2026-10";
      const filedAt = new Date(`${filed}-12T12:00:00Z`);
      const cause = place === 2 ? "C18" : "C01";
      await database().claim.create({
        data: {
          id,
          reference: makeReference(crypto.getRandomValues(new Uint8Array(64))),
          filingKey: randomUUID(),
          stage: isDecided ? "decided" : "in_review",
          shipmentId: own[place]?.id ?? null,
          filedBy: "customer",
          contactName: "Customer",
          contactEmail: "customer@example.com",
          filedAt,
          promisedAt: filedAt,
          decidedAt: isDecided ? filedAt : null,
          ...(isDecided
            ? { verdicts: { create: { primaryCause: cause, contributingCauses: [], attribution: cause === "C01" ? "fit" : "normal", origin: cause === "C01" ? "fitter" : null, way: "confirmed", basis: "technician", remedy: "advice", letter: "Dear customer", decidedById: support.personId, decidedAt: filedAt } } }
            : {}),
        },
      });
      if (isDecided && place === 0) await database().settlement.create({ data: { claimId: id, kind: "goodwill", amountMinor: 10_000, sellerMinor: 10_000, currency: "EUR", bookedById: support.personId } });
    }
  }
  while ((await refreshReportCells()) !== 0);
});

describe("claims by month", () => {
  it("of shipping stand against what was shipped in the month, the newest brought to what they will be", async () => {
    const { chart } = await told(months({ kit: "K-1" }));
    expect(chart.months).toHaveLength(23);
    expect(chart.months[0]).toMatchObject({ month: "2025-01", claims: 3, exposure: 20, kind: "complete" });
    const july = chart.months.find(({ month }) => month === "2026-07");
    expect(july).toMatchObject({ claims: 2, exposure: 20, kind: "incomplete" });
    expect(july?.share).toBeCloseTo(2 / 3);
    expect(july?.rate?.estimate).toBeCloseTo(150);
    expect(chart.months.at(-1)).toMatchObject({ month: "2026-11", kind: "empty", rate: null });
    expect(chart.changes).toEqual([]);
  });

  it("say the same whether cells or single claims are counted", async () => {
    const [cells, single] = await Promise.all([told(months({ kit: "K-1" })), told(months({ kit: "K-1", vehicle: ids.vehicle }))]);
    expect(single.chart.months.map(({ claims }) => claims)).toEqual(cells.chart.months.map(({ claims }) => claims));
    expect(single.chart.months.map(({ exposure }) => exposure)).toEqual(cells.chart.months.map(({ exposure }) => exposure));
    expect(single.sharedOut).toBeCloseTo(220);
  });

  it("of a cause allow for claims that are not decided yet", async () => {
    const { chart } = await told(months({ kit: "K-1", cause: "C01" }));
    expect(chart.months[0]).toMatchObject({ claims: 2 });
    const september = chart.months.find(({ month }) => month === "2026-09");
    expect(september).toMatchObject({ claims: 0, share: 0, kind: "too-new" });
  });

  it("of filing lead to as many claims as they count", async () => {
    const { chart } = await told(months({ kit: "K-1", by: "filed" }));
    for (const filed of ["2025-02", "2026-08", "2026-11"]) {
      const behind = await told(loadClaimsBehind(product, claimsBehindFilterSchema.parse({ from: "2000-01", to: "2026-11", kit: "K-1", filed })));
      expect(behind.total).toBe(chart.months.find(({ month }) => month === filed)?.claims);
    }
  });
});

describe("time to claim", () => {
  it("counts every unit shipped, and each kit by itself", async () => {
    const { whole, parts } = await told(lives());
    expect(whole).toMatchObject({ units: 880, claims: 57 });
    expect(parts.map(({ code, life }) => [code, life.units, life.claims])).toEqual([
      ["K-1", 440, 57],
      ["K-2", 440, 0],
    ]);
    expect(parts[1]?.life.upperBound).toBeGreaterThan(0);
  });

  it("of each cause lets units with another cause leave the watch", async () => {
    const { parts } = await told(lives({ each: "cause", kit: "K-1" }));
    expect(parts.map(({ code }) => code)).toEqual(["C01", "C18"]);
    expect(new Set(parts.map(({ life }) => Math.round(life.unitMonths)))).toHaveProperty("size", 1);
    const { whole } = await told(lives({ kit: "K-1", cause: "C18" }));
    expect(whole.claims).toBe(parts[1]?.life.claims);
    expect(whole.unitMonths).toBeCloseTo(parts[1]?.life.unitMonths ?? 0);
  });
});

describe("claims to come", () => {
  it("are as many as older units had, and cost what ended ones did", async () => {
    const { whole, kits } = await told(toCome({ kit: "K-1", months: 1 }));
    // Shipped in October, September and May: their second, third and seventh month.
    expect(whole?.forecast.months[0]?.claims).toBeCloseTo(3);
    expect(whole?.cost[0]?.perClaim).toMatchObject({ currency: "EUR", paid: 20, ended: 54 });
    expect(whole?.cost[0]?.expected.estimate).toBeCloseTo((3 * 20 * 10_000) / 54);
    expect(kits.map(({ code }) => code)).toEqual(["K-1"]);
    expect(kits[0]?.forecast).toEqual(whole?.forecast);
  });

  it("leave out what is decided and not paid yet", async () => {
    const some = (await database().verdict.findMany({ where: { remedy: "advice", claim: { kitRevisionId: null, shipment: { kitRevisionId: ids.revision }, stage: "decided", settlements: { none: {} } } }, take: 5, select: { id: true } })).map(({ id }) => id);
    await database().verdict.updateMany({ where: { id: { in: some } }, data: { remedy: "replacement" } });
    const { whole } = await told(toCome());
    expect([some.length, whole?.cost[0]?.perClaim]).toMatchObject([5, { paid: 20, ended: 49 }]);
    await database().verdict.updateMany({ where: { id: { in: some } }, data: { remedy: "advice" } });
  });

  it("of a kit without an ended claim cost what those of all kits do", async () => {
    const { kits } = await told(toCome());
    const other = kits.find(({ code }) => code === "K-2");
    expect(other).toMatchObject({ isCostOfAll: true, forecast: { claims: 0 } });
    expect(other?.cost[0]?.perClaim.ended).toBe(54);
  });
});

describe("what is hardly anything", () => {
  it.each([
    ["a kit never sold", { kit: "K-3" }],
    ["months ahead", { from: "2027-01", to: "2027-12" }],
    ["months long ago", { from: "2001-01", to: "2001-12" }],
    ["a batch that is not there", { batch: "none such" }],
    ["vehicles not known", { vehicle: "unknown" }],
    ["one month", { from: "2026-10", to: "2026-10" }],
  ])("%s has pages without a number that is none", async (_, narrowed) => {
    const pages = await Promise.all([told(months(narrowed)), told(months({ ...narrowed, by: "filed" })), told(lives(narrowed)), told(lives({ ...narrowed, each: "cause" })), told(toCome(narrowed))]);
    expect(numbersIn(pages).filter((number) => !Number.isFinite(number))).toEqual([]);
  });

  it("a kit or cause that is not there is refused by name", async () => {
    expect(await months({ kit: "nope" })).toEqual({ ok: false, reason: "unknown", field: "kit" });
    expect(await lives({ cause: "C99" })).toEqual({ ok: false, reason: "unknown", field: "cause" });
    expect(await toCome({ vehicle: randomUUID() })).toEqual({ ok: false, reason: "unknown", field: "vehicle" });
  });
});

it("each table goes out as a file with a line for each of its own", async () => {
  const linesOf = async (exported: ReturnType<typeof exportMonthsReport>) => csvFile((await told(exported)).table).trim().split("\r\n");
  expect((await linesOf(exportForecast(product, forecastFilterSchema.parse({ ...PERIOD, months: 4 })))).length).toBe(5);
  expect((await linesOf(exportForecast(product, forecastFilterSchema.parse({ ...PERIOD, table: "kits" }))))[0]).toContain("cost to come");
  expect((await linesOf(exportTimeToClaim(product, toClaimFilterSchema.parse(PERIOD)))).map((line) => line.split(",")[0])).toEqual(expect.arrayContaining(["all", "K-1", "K-2"]));
  const byMonth = await linesOf(exportMonthsReport(product, monthsFilterSchema.parse({ ...PERIOD, kit: "K-1" })));
  expect(byMonth[1]).toMatch(/^2025-01,20,3,1,150/);
});
