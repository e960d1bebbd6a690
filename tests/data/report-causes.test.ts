import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { hashSecret } from "@/lib/access/secrets";
import { staffByToken } from "@/lib/access/staff";
import { database } from "@/lib/data/client";
import { refreshReportCells } from "@/lib/data/report-cells";
import type { Prisma } from "@/lib/data/generated/client";
import type { Role } from "@/lib/domain/claims/roles";
import { makeReference } from "@/lib/domain/claims/reference";
import { causesFilterSchema, claimsBehindFilterSchema } from "@/lib/inputs/report-filter";
import { csvFile } from "@/lib/files/csv";
import { exportCausesReport } from "@/lib/operations/export-causes-report";
import { exportCausesOfASelection } from "@/lib/operations/export-causes-of-a-selection";
import { exportClaimsBehind } from "@/lib/operations/export-claims-behind";
import { loadCausesOfASelection } from "@/lib/operations/load-causes-of-a-selection";
import { loadCausesReport } from "@/lib/operations/load-causes-report";
import { loadClaimsBehind } from "@/lib/operations/load-claims-behind";

const PERIOD = { from: "2026-01", to: "2026-02" };
const FILTER = causesFilterSchema.parse(PERIOD);
const behind = (more: Record<string, string> = {}) => claimsBehindFilterSchema.parse({ ...PERIOD, ...more });

const ids = { order: randomUUID(), hauler: randomUUID(), van: randomUUID(), revisionA: randomUUID(), revisionB: randomUUID(), fitter: randomUUID(), unit: randomUUID() };
const staff = {} as Record<Role, StaffActor>;

/** So many shipments of a revision on a day; the id of the first. */
async function ship(kitRevisionId: string, vehicleId: string | null, shippedOn: string, count: number): Promise<string> {
  const rows = Array.from({ length: count }, () => ({ id: randomUUID(), orderId: ids.order, kitRevisionId, vehicleId, shippedOn: new Date(shippedOn) }));
  await database().shipment.createMany({ data: rows });
  return rows[0]?.id ?? "";
}

interface ClaimToMake {
  shipmentId: string | null;
  stage?: Prisma.ClaimUncheckedCreateInput["stage"];
  vehicleId?: string;
  verdict?: Partial<Prisma.VerdictUncheckedCreateInput>;
  superseded?: boolean;
  more?: Partial<Prisma.ClaimUncheckedCreateInput>;
}

async function claim({ shipmentId, stage = "filed", vehicleId, verdict, superseded = false, more = {} }: ClaimToMake): Promise<string> {
  const id = randomUUID();
  const decidedAt = new Date("2026-03-10T12:00:00Z");
  await database().claim.create({
    data: {
      id,
      reference: makeReference(crypto.getRandomValues(new Uint8Array(64))),
      filingKey: randomUUID(),
      stage,
      shipmentId,
      vehicleId: vehicleId ?? null,
      filedBy: "customer",
      contactName: "Name of a customer",
      contactEmail: "customer@example.com",
      description: "Words of a customer",
      filedAt: new Date("2026-02-20T12:00:00Z"),
      promisedAt: new Date("2026-02-21T12:00:00Z"),
      decidedAt: verdict ? decidedAt : null,
      settledAt: stage === "settled" ? decidedAt : null,
      ...more,
    },
  });
  if (verdict)
    await database().verdict.create({
      data: {
        claimId: id,
        primaryCause: "C01",
        contributingCauses: [],
        attribution: "fit",
        way: "confirmed",
        basis: "technician",
        remedy: "advice",
        letter: "Dear customer",
        decidedById: staff.support.personId,
        decidedAt,
        supersededAt: superseded ? decidedAt : null,
        ...verdict,
      },
    });
  return id;
}

beforeAll(async () => {
  for (const role of ["support", "bench", "product", "admin"] as const) {
    const person = await database().person.create({ data: { email: `${role}@report.example`, name: role, role } });
    await database().staffSession.create({ data: { personId: person.id, tokenHash: hashSecret(`report-${role}`), expiresAt: new Date("2100-01-01") } });
    const actor = await staffByToken(`report-${role}`);
    if (actor) staff[role] = actor;
  }
  const engine = { make: "Make", engine: "3.0 D", fuel: "diesel", yearFrom: 2010 } as const;
  await database().vehicle.createMany({ data: [{ id: ids.hauler, model: "Hauler", ...engine }, { id: ids.van, model: "Van", ...engine }] });
  const kit = await database().kit.create({
    data: { code: "=1+1", name: "Kit with a name like a formula", fitments: { create: [{ vehicleId: ids.hauler }, { vehicleId: ids.van }] } },
  });
  await database().kitRevision.createMany({
    data: [
      { id: ids.revisionA, kitId: kit.id, revision: "A", introducedOn: new Date("2025-01-01") },
      { id: ids.revisionB, kitId: kit.id, revision: "B", introducedOn: new Date("2026-01-01") },
    ],
  });
  await database().order.create({
    data: { id: ids.order, number: "R-1", customerEmail: "customer@example.com", customerName: "Name of a customer", country: "DE", placedOn: new Date("2025-12-30") },
  });

  await database().fitter.create({ data: { id: ids.fitter, name: "Garage", place: "Town" } });
  const turbo = await database().turboModel.create({ data: { code: "T", name: "T", bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.4, drainBoreMm: 13 } });
  await database().unit.create({ data: { id: ids.unit, serial: "S-1", batch: "B-1", turboModelId: turbo.id } });
  const onHauler = await ship(ids.revisionA, ids.hauler, "2026-01-01", 300);
  const onVan = await ship(ids.revisionA, ids.van, "2026-02-28", 100);
  const onUnknown = await ship(ids.revisionA, null, "2026-02-01", 80);
  await ship(ids.revisionB, ids.van, "2026-02-15", 200);
  const before = await ship(ids.revisionA, ids.hauler, "2025-12-31", 1);
  const after = await ship(ids.revisionA, ids.hauler, "2026-03-01", 1);

  const settled = await claim({ shipmentId: onHauler, stage: "settled", verdict: { attribution: "kit", origin: "kit", contributingCauses: ["C07"], remedy: "goodwill" } });
  const settlement = { claimId: settled, currency: "EUR", bookedById: staff.support.personId } as const;
  await database().settlement.createMany({
    data: [
      { ...settlement, kind: "goodwill", amountMinor: 20_000, sellerMinor: 12_050, customerMinor: 7_950 },
      { ...settlement, kind: "core_kept", amountMinor: 50, sellerMinor: -50, customerMinor: 50, heldMinor: -50 },
    ],
  });
  await claim({ shipmentId: onHauler, stage: "decided", verdict: { primaryCause: "C18", attribution: "normal" } });
  await claim({ shipmentId: onHauler, stage: "in_review", verdict: {}, superseded: true });
  await claim({ shipmentId: onHauler, stage: "withdrawn" });
  const onUnit = await claim({ shipmentId: onVan, more: { fitterId: ids.fitter } });
  await database().shipment.update({ where: { id: onVan }, data: { unitId: ids.unit } });
  const result = { notExplained: 0.25, causes: [{ code: "C01", attribution: "fit", probability: 0.5 }, { code: "C15", attribution: "unit", probability: 0.25 }] };
  await database().ranking.create({ data: { claimId: onUnit, editionNumber: 1, observations: [], result } });
  // The customer told the vehicle that the order did not, and one that the order did not think of.
  await claim({ shipmentId: onUnknown, vehicleId: ids.van });
  await claim({ shipmentId: onUnknown, more: { fitterId: ids.fitter } });
  const kept = await claim({ shipmentId: null, more: { kitRevisionId: ids.revisionA } });

  await claim({ shipmentId: onHauler, stage: "merged", more: { mergedIntoId: kept } });
  await claim({ shipmentId: onHauler, stage: "draft", more: { filedAt: null, promisedAt: null } });
  await claim({ shipmentId: before });
  await claim({ shipmentId: after });
  expect(await refreshReportCells()).toBeGreaterThan(0);
});

describe("the report", () => {
  it("counts claims about what was shipped from the first to the last day of the period, without drafts and merged ones", async () => {
    const report = await loadCausesReport(staff.product, FILTER);
    if (!report.ok) throw new Error(report.reason);
    expect(report.table.total).toMatchObject({ claims: 7, decided: 2, sharedOut: 80 });
    expect(report.table.total.shipped).toBeCloseTo(680, 6);
    expect(report.table.total.outcomes).toMatchObject({ kit: 1, normal: 1, undecided: 4, ended: 1 });
    const [hauler, van, unknown] = report.table.rows[0]?.cells ?? [];
    expect(hauler?.figures).toMatchObject({ shipped: 360, sharedOut: 60, claims: 4 });
    expect(van?.figures).toMatchObject({ shipped: 320, sharedOut: 20, claims: 2 });
    expect(unknown).toMatchObject({ vehicle: null, figures: { shipped: 0, claims: 1, rate: null } });
    expect(report.unmatched).toBe(1);
  });

  it("counts only the claims of a cause where one is asked for", async () => {
    const report = await loadCausesReport(staff.product, { ...FILTER, cause: "C18" });
    expect(report).toMatchObject({ ok: true, table: { total: { claims: 1 } } });
  });

  it("has no figures, and no error, for a period in which nothing was shipped", async () => {
    const report = await loadCausesReport(staff.product, { ...FILTER, from: "2099-01", to: "2099-12" });
    expect(report).toMatchObject({ ok: true, outstanding: null, compared: [], unmatched: 0, table: { rows: [], total: { shipped: 0, claims: 0, rate: null } } });
  });

  it("says how much is probable of a cause among the undecided, apart from the claims", async () => {
    const report = await loadCausesReport(staff.product, { ...FILTER, cause: "C15", with: "probable" });
    expect(report).toMatchObject({ ok: true, table: { total: { claims: 0, probable: 0.25 } } });
  });

  it("adds up what the claims cost", async () => {
    const report = await loadCausesReport(staff.product, FILTER);
    expect(report).toMatchObject({ ok: true, table: { total: { costs: [{ currency: "EUR", amountMinor: 12_000 }] } } });
  });

  it("gives a fitter's claims without any rate, since nobody knows what else they fitted", async () => {
    const report = await loadCausesReport(staff.product, { ...FILTER, fitter: ids.fitter });
    expect(report).toMatchObject({ ok: true, fitter: { name: "Garage" }, compared: [], table: { total: { claims: 2, shipped: 0, rate: null, serviceRate: null } } });
  });

  it("narrows to a batch, on both sides of the rate", async () => {
    const report = await loadCausesReport(staff.product, { ...FILTER, batch: "B-1" });
    expect(report).toMatchObject({ ok: true, table: { total: { claims: 1, shipped: 1, rate: { estimate: 1000 } } } });
  });

  it("counts a month in service against the time units have spent in it", async () => {
    const first = await loadCausesReport(staff.product, { ...FILTER, serviceFrom: 0, serviceTo: 0 }, new Date("2026-06-15T12:00:00Z"));
    // 20 February: under a month after the fitting that is allowed for what was shipped from 1 January on.
    expect(first).toMatchObject({ ok: true, table: { total: { claims: 7, unitMonths: expect.closeTo(680, 6) } } });
    expect(await loadCausesReport(staff.product, { ...FILTER, serviceFrom: 7 }, new Date("2026-06-15T12:00:00Z"))).toMatchObject({ ok: true, table: { total: { claims: 0, unitMonths: 0, serviceRate: null } } });
  });

  it.each([
    ["kit", { kit: "no such kit" }],
    ["vehicle", { vehicle: randomUUID() }],
    ["cause", { cause: "C999" }],
    ["fitter", { fitter: randomUUID() }],
  ])("says so where there is no such %s", async (field, more) => {
    expect(await loadCausesReport(staff.product, { ...FILTER, ...more })).toEqual({ ok: false, reason: "unknown", field });
  });

  it("tells the causes of one cell and what contributed", async () => {
    const loaded = await loadCausesOfASelection(staff.product, { ...PERIOD, kit: "=1+1", vehicle: ids.hauler });
    if (!loaded.ok) throw new Error(loaded.reason);
    expect(loaded.report.causes.map(({ cause, primary, contributing }) => [cause, primary, contributing])).toEqual([
      ["C01", 1, 0],
      ["C18", 1, 0],
      ["C07", 0, 1],
    ]);
    expect(loaded.report.revisions.map(({ revision, figures }) => [revision.revision, figures.shipped])).toEqual([["A", 360]]);
  });
});

describe("what only claims and batches tell", () => {
  it("is counted for a kit: batches with what was shipped of them, months in service, fitters and origins", async () => {
    const loaded = await loadCausesOfASelection(staff.product, { ...PERIOD, kit: "=1+1" }, new Date("2026-06-15T12:00:00Z"));
    if (!loaded.ok) throw new Error(loaded.reason);
    const { breakdown } = loaded;
    expect(breakdown?.batches).toMatchObject([
      { batch: "B-1", shipped: 1, claims: 1 },
      { batch: null, shipped: 679, claims: 6 },
    ]);
    expect(breakdown?.ages).toMatchObject([{ monthInService: 0, claims: 7, unitMonths: expect.closeTo(680, 6) }]);
    expect(breakdown?.fitters.map(({ name, claims }) => [name, claims])).toEqual([
      [null, 5],
      ["Garage", 2],
    ]);
    expect(breakdown?.origins).toEqual([{ origin: "kit", claims: 1 }]);
  });

  it("is left out for all kits and vehicles together", async () => {
    expect(await loadCausesOfASelection(staff.product, PERIOD)).toMatchObject({ ok: true, breakdown: null });
  });

  it("says of a kit never sold, and of a month to come, that nothing was shipped", async () => {
    expect(await loadCausesOfASelection(staff.product, { ...PERIOD, kit: "=1+1", from: "2099-01", to: "2099-02" })).toMatchObject({
      ok: true,
      report: { figures: { shipped: 0, claims: 0, rate: null, serviceRate: null, costs: [] }, causes: [], revisions: [], months: [] },
      breakdown: { batches: [], ages: [], fitters: [], origins: [] },
    });
  });
});

describe("the claims behind a figure", () => {
  const total = async (more: Record<string, string>) => {
    const found = await loadClaimsBehind(staff.product, behind(more));
    return found.ok ? found.total : found.reason;
  };

  it("are as many as the figure says", async () => {
    expect(await total({})).toBe(7);
    expect(await total({ vehicle: ids.hauler })).toBe(4);
    expect(await total({ vehicle: ids.van })).toBe(2);
    expect(await total({ vehicle: "unknown" })).toBe(1);
    expect(await total({ revision: "B" })).toBe(0);
    expect(await total({ outcome: "undecided" })).toBe(4);
    expect(await total({ outcome: "ended" })).toBe(1);
    expect(await total({ outcome: "decided" })).toBe(2);
    expect(await total({ outcome: "kit", kit: "=1+1", revision: "A" })).toBe(1);
    expect(await total({ cause: "C01" })).toBe(1);
    expect(await total({ cause: "C07" })).toBe(0);
    expect(await total({ cause: "C07", role: "contributing" })).toBe(1);
    expect(await total({ shipment: "none" })).toBe(1);
    expect(await total({ cause: "C15", role: "probable" })).toBe(1);
    expect(await total({ fitter: ids.fitter })).toBe(2);
    expect(await total({ batch: "B-1" })).toBe(1);
    expect(await total({ origin: "kit" })).toBe(1);
    expect(await total({ serviceFrom: "0", serviceTo: "0" })).toBe(7);
  });

  it("show cause, remedy and what was booked, and nothing of the customer", async () => {
    const found = await loadClaimsBehind(staff.product, behind({ outcome: "kit" }));
    if (!found.ok) throw new Error(found.reason);
    expect(found.claims[0]).toMatchObject({ cause: "C01", contributing: ["C07"], attribution: "kit", origin: "kit", remedy: "goodwill", costs: [{ currency: "EUR", amountMinor: 12_000 }] });
    expect(JSON.stringify(found.claims)).not.toMatch(/customer/i);
  });

  it("end where the list ends", async () => {
    expect(await loadClaimsBehind(staff.product, behind({ page: "10000" }))).toMatchObject({ ok: true, total: 7, claims: [] });
  });
});

describe("the files", () => {
  it("have a line for each cell and an apostrophe before what a spreadsheet would compute", async () => {
    const file = await exportCausesReport(staff.product, FILTER);
    if (!file.ok) throw new Error(file.reason);
    const csv = csvFile(file.table);
    const lines = csv.trimEnd().split("\r\n");
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/^\ufeffshipped from,shipped to,kit,revision,make/);
    expect(lines[1]).toMatch(/^2026-01,2026-02,'=1\+1,,Make,Hauler,3.0 D,360,60,4,11.111,/);
    expect(csv).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it("list all claims, and nothing of the customer", async () => {
    const file = await exportClaimsBehind(staff.product, behind());
    if (!file.ok) throw new Error(file.reason);
    const csv = csvFile(file.table);
    expect(csv.trim().split("\r\n")).toHaveLength(8);
    expect(csv).toContain(",120,EUR");
    expect(csv).not.toMatch(/customer/i);
  });

  it.each(["causes", "revisions", "months", "ages", "batches", "fitters"] as const)("have every table of a kit: %s", async (name) => {
    const file = await exportCausesOfASelection(staff.product, { ...PERIOD, kit: "=1+1", table: name });
    if (!file.ok) throw new Error(file.reason);
    const csv = csvFile(file.table);
    expect(csv.trim().split("\r\n").length).toBeGreaterThan(1);
    expect(csv).not.toMatch(/NaN|Infinity|undefined|null|customer|,=/i);
  });
});

describe("who may see reports", () => {
  it.each(["support", "product", "admin"] as const)("%s may", async (role) => {
    expect(await loadCausesReport(staff[role], FILTER)).toMatchObject({ ok: true });
  });

  it("the bench may not, and is recorded", async () => {
    const refusal = { ok: false, reason: "not-allowed" };
    expect(await loadCausesReport(staff.bench, FILTER)).toEqual(refusal);
    expect(await loadCausesOfASelection(staff.bench, PERIOD)).toEqual(refusal);
    expect(await loadClaimsBehind(staff.bench, behind())).toEqual(refusal);
    expect(await exportCausesReport(staff.bench, FILTER)).toEqual(refusal);
    expect(await exportClaimsBehind(staff.bench, behind())).toEqual(refusal);
    expect(await database().auditEntry.count({ where: { action: "refused", personId: staff.bench.personId } })).toBe(5);
  });
});
