import { randomUUID } from "node:crypto";
import { beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { connectionPool, database } from "@/lib/data/client";
import { findLooks, listSignals, type SignalKept } from "@/lib/data/signals";
import { effectVerdict } from "@/lib/domain/reporting/signals-effect-sentence";
import { monthNumber, monthOfNumber } from "@/lib/domain/reporting/signals-world";
import { signalDecisionSchema } from "@/lib/inputs/signal";
import { decideOnSignal } from "@/lib/operations/decide-on-signal";
import { exportSignals } from "@/lib/operations/export-signals";
import { loadClaimsBehind } from "@/lib/operations/load-claims-behind";
import { loadSignal, loadSignals, loadWaitingSignals } from "@/lib/operations/load-signals";
import { askToLook, lookForSignals } from "@/lib/operations/look-for-signals";
import { claimsBehindFilterSchema } from "@/lib/inputs/report-filter";
import { aPerson, aStaffActor } from "@/tests/builders/a-person";

const KITS = [0, 1, 2, 3, 4];
const VEHICLES = [randomUUID(), randomUUID(), randomUUID()];
const MONTHS = Array.from({ length: 18 }, (_, place) => monthOfNumber(monthNumber("2025-07") + place));
const kits = KITS.map(() => randomUUID());
const revisions = KITS.map(() => ({ A: randomUUID(), B: randomUUID(), C: randomUUID() }));
const LATE_NOVEMBER = new Date("2026-11-28T12:00:00Z");
const DECEMBER = new Date("2026-12-31T12:00:00Z");

let product: StaffActor;
let manager: { id: string; email: string };

interface Line {
  kit: number;
  vehicle: number;
  month: string;
}
const isFaulty = ({ kit, vehicle, month }: Line) => kit === 1 && vehicle === 2 && month >= "2026-01";
const usual = ({ kit, vehicle, month }: Line) => [1, 0, 2][(monthNumber(month) + 2 * kit + vehicle) % 3] ?? 0;

/** A hundred of each kit on each vehicle a month, each claim two months later; revision C of the second kit may come last. */
async function sell(claimsOf: (line: Line) => number, revisionOf: (line: Line) => "A" | "B" | "C" = ({ month }) => (month < "2026-01" ? "A" : "B")) {
  const shipped: unknown[][] = [];
  const claims: unknown[][] = [];
  for (const kit of KITS)
    for (const vehicle of [0, 1, 2])
      for (const month of MONTHS) {
        const line = { kit, vehicle, month };
        const revision = revisions[kit]?.[revisionOf(line)];
        shipped.push([revision, VEHICLES[vehicle], `${month}-01`, 100]);
        const filed = monthNumber(month) + 2;
        if (filed <= monthNumber("2026-12")) for (let count = 0; count < claimsOf(line); count += 1) claims.push([revision, VEHICLES[vehicle], `${month}-01`, `${monthOfNumber(filed)}-10`]);
      }
  const pool = connectionPool();
  await pool.query("TRUNCATE shipped_cell, report_claim, cause_cell");
  await pool.query(
    "INSERT INTO shipped_cell (kit_revision_id, vehicle_id, month, units) SELECT * FROM unnest($1::uuid[], $2::uuid[], $3::date[], $4::int[])",
    [0, 1, 2, 3].map((column) => shipped.map((line) => line[column])),
  );
  await pool.query(
    "INSERT INTO report_claim (claim_id, kit_revision_id, vehicle_id, month, filed_at, outcome, cause, contributing) SELECT gen_random_uuid(), r, v, m, f, 'kit', 'C01', '{}' FROM unnest($1::uuid[], $2::uuid[], $3::date[], $4::timestamptz[]) AS line (r, v, m, f)",
    [0, 1, 2, 3].map((column) => claims.map((line) => line[column])),
  );
  await pool.query(
    "INSERT INTO cause_cell (kit_revision_id, vehicle_id, month, role, cause, attribution, millionths) SELECT kit_revision_id, vehicle_id, month, 'primary', cause, outcome, 1000000 * count(*) FROM report_claim GROUP BY 1, 2, 3, 5, 6",
  );
}
const withFault = (line: Line) => (isFaulty(line) ? 4 : usual(line));

const mails = () => database().outgoingMail.findMany({ where: { onceKey: { startsWith: "signals:" } } });
const decision = (more: Record<string, string>) => signalDecisionSchema.parse({ note: "Told the draughtsman", version: "0", ...more });
async function theSignal(): Promise<SignalKept> {
  const [signal, ...others] = await listSignals();
  expect(others).toEqual([]);
  if (!signal) throw new Error("there is no signal");
  return signal;
}

beforeAll(async () => {
  product = await aStaffActor("product");
  await database().person.update({ where: { id: product.personId }, data: { disabledAt: new Date() } });
  manager = await aPerson({ role: "product" });
  await database().vehicle.createMany({ data: VEHICLES.map((id, index) => ({ id, make: "Make", model: `M${index}`, engine: "2.0", fuel: "diesel", yearFrom: 2010 })) });
  for (const kit of KITS)
    await database().kit.create({
      data: { id: kits[kit] ?? "", code: `K${kit}`, name: "Kit", revisions: { create: Object.entries(revisions[kit] ?? {}).map(([revision, id], index) => ({ id, revision, introducedOn: new Date(`202${5 + index}-01-01`) })) } },
    });
});

beforeEach(async () => {
  await connectionPool().query("TRUNCATE signal, signal_decision, signal_look; DELETE FROM outgoing_mail; DELETE FROM graphile_worker._private_jobs");
  await sell(withFault);
});

describe("the look for signals", () => {
  it("raises a fault with its figures, and its claims are the ones behind it", async () => {
    expect(await lookForSignals({}, DECEMBER)).toMatchObject({ raised: 1 });
    const signal = await theSignal();
    expect(signal).toMatchObject({ cause: "C01", standsOut: true, looks: 1, place: 1, act: null, version: 0, scope: { kitId: kits[1], kitRevisionId: revisions[1]?.B, vehicleId: VEHICLES[2] } });
    expect(signal.figures).toMatchObject({ claims: 40, unitsShipped: 1200, since: "2026-01" });
    expect(signal.watch?.likelyStart).toMatch(/^2026-0[1-4]$/);
    const behind = await loadClaimsBehind(product, claimsBehindFilterSchema.parse({ from: signal.figures.since, to: "2026-12", kit: "K1", revision: "B", vehicle: VEHICLES[2], cause: "C01" }));
    expect(behind).toMatchObject({ ok: true, total: signal.figures.claims });
  });

  it("tells each product manager once, however often it looks, and nobody who comes later", async () => {
    await lookForSignals({}, DECEMBER);
    await lookForSignals({}, DECEMBER);
    await lookForSignals({ isFormal: true }, DECEMBER);
    const late = await aPerson({ role: "product" });
    await lookForSignals({}, new Date("2027-01-02T12:00:00Z"));
    await database().person.update({ where: { id: late.id }, data: { disabledAt: new Date() } });
    const sent = await mails();
    expect(sent.map(({ toAddress }) => toAddress)).toEqual([manager.email]);
    expect(sent[0]?.text).toContain("K1 rev B on Make M2 2.0: drain runs level");
    expect(sent[0]?.text).toContain("from 40 claims on 1,200 shipped since January 2026");
    expect((await theSignal()).looks).toBe(3);
  });

  it("raises a signal once though two look at once", async () => {
    await Promise.all([lookForSignals({}, DECEMBER), lookForSignals({}, DECEMBER)]);
    expect(await mails()).toHaveLength(1);
    expect(await findLooks()).toMatchObject({ formal: 1 });
  });

  it("raises nothing in the nights between, unless somebody asks for a look", async () => {
    await sell(usual);
    await lookForSignals({}, LATE_NOVEMBER);
    await sell(withFault);
    expect(await lookForSignals({}, LATE_NOVEMBER)).toMatchObject({ raised: 0 });
    expect(await listSignals()).toEqual([]);
    expect(await askToLook(product)).toEqual({ ok: true });
    const { rows } = await connectionPool().query("SELECT key, payload FROM graphile_worker.jobs j JOIN graphile_worker._private_jobs USING (id, key) WHERE j.task_identifier = 'look-for-signals'");
    expect(rows).toEqual([{ key: "look-for-signals:formal", payload: { isFormal: true } }]);
    expect(await lookForSignals({ isFormal: true }, LATE_NOVEMBER)).toMatchObject({ raised: 1 });
  });

  it("raises what came in between in the first look of the next month", async () => {
    await sell(usual);
    await lookForSignals({}, LATE_NOVEMBER);
    await sell(withFault);
    expect(await lookForSignals({}, DECEMBER)).toMatchObject({ raised: 1 });
  });

  it("shows a signal that fades as faded, with the figures it had, and as the same one when it comes back", async () => {
    await lookForSignals({}, DECEMBER);
    const before = await theSignal();
    await sell(usual);
    await lookForSignals({}, DECEMBER);
    expect(await theSignal()).toMatchObject({ id: before.id, standsOut: false, figures: before.figures });
    const sheet = await loadSignals(product, { state: "faded" });
    expect(sheet).toMatchObject({ ok: true, counts: { faded: 1 }, signals: [{ id: before.id }] });
    expect(await loadWaitingSignals(product)).toEqual({ ok: true, waiting: 0 });
    await sell(withFault);
    await lookForSignals({}, DECEMBER);
    expect(await theSignal()).toMatchObject({ id: before.id, standsOut: true });
    expect(await mails()).toHaveLength(1);
  });

  it("does not use up the month by looking at nothing, and finds nothing in one claim", async () => {
    await connectionPool().query("TRUNCATE shipped_cell, report_claim");
    await lookForSignals({}, DECEMBER);
    expect(await findLooks()).toMatchObject({ formal: 0, newest: { unitsShipped: 0, claims: 0 } });
    await sell(({ kit, vehicle, month }) => (kit === 0 && vehicle === 0 && month === "2026-02" ? 1 : 0));
    await lookForSignals({}, DECEMBER);
    expect(await findLooks()).toMatchObject({ newest: { standingOut: 0, claims: 1 } });
    expect(await listSignals()).toEqual([]);
  });
});

describe("what was done about a signal", () => {
  beforeEach(async () => {
    await lookForSignals({}, DECEMBER);
  });

  it("is kept with who, when and since which month, and in the audit trail; the history stays", async () => {
    const { id } = await theSignal();
    expect(await decideOnSignal(product, id, decision({ act: "noted" }), DECEMBER)).toEqual({ ok: true });
    expect(await decideOnSignal(product, id, decision({ act: "leaflet_changed", holdsFrom: "2026-10", version: "1", note: "Leaflet 7 says it" }), DECEMBER)).toEqual({ ok: true });
    const { decisions, act } = await theSignal();
    expect(act).toBe("leaflet_changed");
    expect(decisions.map(({ number, act: done, note, holdsFrom, by }) => ({ number, done, note, holdsFrom, by }))).toEqual([
      { number: 2, done: "leaflet_changed", note: "Leaflet 7 says it", holdsFrom: "2026-10", by: product.name },
      { number: 1, done: "noted", note: "Told the draughtsman", holdsFrom: null, by: product.name },
    ]);
    const lines = await database().auditEntry.findMany({ where: { action: "decide_on_signal", detail: { path: ["signalId"], equals: id } } });
    expect(lines.map(({ personId }) => personId)).toEqual([product.personId, product.personId]);
    expect(await loadWaitingSignals(product)).toEqual({ ok: true, waiting: 0 });
    expect(await loadSignals(product, { state: "leaflet_changed" })).toMatchObject({ signals: [{ id }], counts: { leaflet_changed: 1 } });
  });

  it("is decided by one of two at once, and the other is told what was decided", async () => {
    const { id } = await theSignal();
    const results = await Promise.all([decideOnSignal(product, id, decision({ act: "noted" })), decideOnSignal(product, id, decision({ act: "not_real" }))]);
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    const { act, decisions } = await theSignal();
    expect(decisions).toHaveLength(1);
    expect(results.find(({ ok }) => !ok)).toMatchObject({ ok: false, reason: "decided-meanwhile", newest: { act, number: 1 } });
  });

  it("must be about this kit, and about a signal that there is", async () => {
    const { id } = await theSignal();
    const shipped = { act: "revision_shipped", holdsFrom: "2026-10" };
    expect(await decideOnSignal(product, id, decision({ ...shipped, revision: revisions[0]?.B ?? "" }))).toEqual({ ok: false, reason: "unknown-revision" });
    expect(await decideOnSignal(product, randomUUID(), decision({ act: "noted" }))).toEqual({ ok: false, reason: "not-found" });
    expect(await loadSignal(product, randomUUID())).toEqual({ ok: false, reason: "not-found" });
  });

  it("asks for a month where what ships was changed, and takes no act that there is not", () => {
    const read = (given: Record<string, string>) => signalDecisionSchema.safeParse({ note: "n", version: "0", revision: "", ...given }).error?.issues.map(({ path }) => path[0]) ?? [];
    for (const act of ["drawing_changed", "leaflet_changed", "supplier_told", "revision_shipped"]) expect(read({ act, holdsFrom: "" })).toEqual(["holdsFrom"]);
    for (const act of ["noted", "not_real"]) expect(read({ act, holdsFrom: "" })).toEqual([]);
    expect(read({ act: "hidden" })).toContain("act");
    expect(read({ act: "noted", note: " " })).toEqual(["note"]);
  });

  it("is followed by before and after: it helped where the claims are gone", async () => {
    await sell((line) => (isFaulty(line) && line.month >= "2026-07" ? 0 : withFault(line)));
    const { id } = await theSignal();
    await decideOnSignal(product, id, decision({ act: "drawing_changed", holdsFrom: "2026-07" }));
    await lookForSignals({}, DECEMBER);
    const { effect } = await theSignal();
    expect(effect).toMatchObject({ kind: "compared", before: { claims: 24, unitsShipped: 600 }, after: { claims: 0, unitsShipped: 600 } });
    expect(effect && effectVerdict(effect)).toBe("helped");
  });

  it("is too early to judge where hardly anything has shipped with it", async () => {
    const { id } = await theSignal();
    await decideOnSignal(product, id, decision({ act: "supplier_told", holdsFrom: "2026-12" }));
    await lookForSignals({}, DECEMBER);
    const { effect } = await theSignal();
    expect(effect && effectVerdict(effect)).toBe("too-early");
  });

  it("is compared with the revision that was shipped in place of the faulty one", async () => {
    await sell(
      (line) => (isFaulty(line) && line.month >= "2026-07" ? 0 : withFault(line)),
      ({ kit, month }) => (month < "2026-01" ? "A" : kit === 1 && month >= "2026-07" ? "C" : "B"),
    );
    const { id } = await theSignal();
    await decideOnSignal(product, id, decision({ act: "revision_shipped", holdsFrom: "2026-07", revision: revisions[1]?.C ?? "" }));
    await lookForSignals({}, DECEMBER);
    const { effect, decisions } = await theSignal();
    expect(decisions[0]?.revision?.name).toBe("C");
    expect(effect).toMatchObject({ kind: "compared", before: { claims: 24, unitsShipped: 600 }, after: { claims: 0, unitsShipped: 600 } });
  });

  it("goes out with the list as a table", async () => {
    const { id } = await theSignal();
    await decideOnSignal(product, id, decision({ act: "noted", note: "=1+1" }), DECEMBER);
    const exported = await exportSignals(product, {});
    if (!exported.ok) throw new Error("the list was refused");
    expect(exported.table.rows).toMatchObject([{ about: "K1 rev B on Make M2 2.0", cause: "C01", state: "noted", claims: 40, shipped: 1200, note: "=1+1" }]);
    expect(await exportSignals(product, { state: "waiting" })).toMatchObject({ table: { rows: [] } });
  });
});
