import { randomUUID } from "node:crypto";
import { beforeAll, expect, it } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { connectionPool, database, inTransaction } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import { rebuildReportCells, refreshReportCells } from "@/lib/data/report-cells";
import { insertSettlement } from "@/lib/data/settlements";
import { shareOut } from "@/lib/domain/claims/bearing-shares";
import { movesOf, NOTHING_PROMISED } from "@/lib/domain/claims/bookings";
import { insertVerdict, reopenDecidedClaim } from "@/lib/data/verdicts";
import { makeReference } from "@/lib/domain/claims/reference";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { aStaffActor } from "@/tests/builders/a-person";

const CAUSES = ["C01", "C07", "C15", "C18"] as const;
const MONTHS = ["2026-01-05", "2026-02-10", "2026-03-31"] as const;
const CLAIMS = 60;
const ACTS = 400;

let staff: StaffActor;
const revisions = [randomUUID(), randomUUID()];
const vehicles = [randomUUID(), randomUUID()];
const shipments: string[] = [];
const units: string[] = [];
const claims: string[] = [];

/** The same storm on every run. */
function luck(seed: number) {
  let state = seed;
  const next = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  return { below: (limit: number) => Math.floor(next() * limit), of: <T>(items: readonly T[]) => items[Math.floor(next() * items.length)] as T };
}

beforeAll(async () => {
  staff = await aStaffActor("support");
  const turbo = await database().turboModel.create({ data: { code: "T", name: "T", bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.4, drainBoreMm: 13 } });
  await database().vehicle.createMany({ data: vehicles.map((id, index) => ({ id, make: "Make", model: `M${index}`, engine: "2.0", fuel: "diesel", yearFrom: 2010 })) });
  await database().kit.create({ data: { code: "K", name: "Kit", revisions: { create: revisions.map((id, index) => ({ id, revision: String(index), introducedOn: new Date("2025-01-01") })) } } });
  const order = await database().order.create({ data: { number: "O", customerEmail: "a@example.com", customerName: "A", country: "DE", placedOn: new Date("2025-12-30") } });
  for (let index = 0; index < 90; index += 1) {
    units.push(randomUUID());
    shipments.push(randomUUID());
  }
  await database().unit.createMany({ data: units.map((id, index) => ({ id, serial: `S${index}`, batch: `B${index % 4}`, turboModelId: turbo.id })) });
  const { of } = luck(1);
  await database().shipment.createMany({
    data: shipments.map((id, index) => ({ id, orderId: order.id, kitRevisionId: of(revisions), unitId: index % 5 === 0 ? null : (units[index] ?? null), vehicleId: of([...vehicles, null]), shippedOn: new Date(of(MONTHS)) })),
  });
  const filedAt = new Date("2026-05-01T12:00:00Z");
  for (let index = 0; index < CLAIMS; index += 1) {
    const id = randomUUID();
    claims.push(id);
    await database().claim.create({
      data: {
        id,
        reference: makeReference(crypto.getRandomValues(new Uint8Array(64))),
        filingKey: randomUUID(),
        stage: "in_review",
        filedBy: "customer",
        contactName: "A",
        contactEmail: "a@example.com",
        filedAt,
        promisedAt: filedAt,
        shipmentId: index % 10 === 9 ? null : (shipments[index] ?? null),
        vehicleId: of([vehicles[0] ?? null, null, null]),
        rankings: { create: { editionNumber: 1, observations: [], result: { notExplained: 0.1, causes: [{ code: "C01", attribution: "fit", probability: 0.7 }, { code: "C15", attribution: "unit", probability: 0.2 }] } } },
      },
    });
  }
});

/** What the cells must hold, straight from the tables they stand for. */
const PLAIN = {
  shipped_cell: `SELECT s.kit_revision_id, s.vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month, u.batch, count(*)::int AS n
    FROM shipment s LEFT JOIN unit u ON u.id = s.unit_id GROUP BY 1, 2, 3, 4`,
  claim_cell: `SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id) AS vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month,
      coalesce(v.attribution::text, CASE WHEN c.stage IN ('cleared', 'withdrawn', 'lapsed') THEN 'ended' ELSE 'undecided' END) AS outcome, count(*)::int AS n
    FROM claim c JOIN shipment s ON s.id = c.shipment_id LEFT JOIN verdict v ON v.claim_id = c.id AND v.superseded_at IS NULL
    WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4`,
  aged_cell: `SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id) AS vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month,
      floor((c.filed_at::date - (s.shipped_on + 21)) / (365.2425 / 12))::int AS age,
      coalesce(v.attribution::text, CASE WHEN c.stage IN ('cleared', 'withdrawn', 'lapsed') THEN 'ended' ELSE 'undecided' END) AS outcome, count(*)::int AS n
    FROM claim c JOIN shipment s ON s.id = c.shipment_id LEFT JOIN verdict v ON v.claim_id = c.id AND v.superseded_at IS NULL
    WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4, 5`,
  cause_cell: `SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id) AS vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month, part.role, part.cause, part.origin, sum(part.n)::int AS n
    FROM claim c JOIN shipment s ON s.id = c.shipment_id LEFT JOIN verdict v ON v.claim_id = c.id AND v.superseded_at IS NULL
    CROSS JOIN LATERAL (
      SELECT 'primary', v.primary_cause, v.origin::text, 1000000 WHERE v.id IS NOT NULL
      UNION ALL SELECT 'contributing', x, v.origin::text, 1000000 FROM unnest(v.contributing_causes) x
      UNION ALL SELECT 'probable', p.cause, NULL, p.n FROM (VALUES ('C01', 700000), ('C15', 200000)) p (cause, n) WHERE v.id IS NULL AND c.stage NOT IN ('cleared', 'withdrawn', 'lapsed')
    ) part (role, cause, origin, n)
    WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4, 5, 6`,
  cost_cell: `SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id) AS vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month, v.primary_cause AS cause, m.currency, sum(m.seller_minor)::int AS n
    FROM claim c JOIN shipment s ON s.id = c.shipment_id LEFT JOIN verdict v ON v.claim_id = c.id AND v.superseded_at IS NULL JOIN settlement m ON m.claim_id = c.id AND m.seller_minor <> 0
    WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4, 5 HAVING sum(m.seller_minor) <> 0`,
  spent_cell: `SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id) AS vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month, m.currency, sum(m.seller_minor)::int AS n
    FROM claim c JOIN shipment s ON s.id = c.shipment_id JOIN settlement m ON m.claim_id = c.id AND m.seller_minor <> 0
    WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4 HAVING sum(m.seller_minor) <> 0`,
  aged_spent_cell: `SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id) AS vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month,
      floor((c.filed_at::date - (s.shipped_on + 21)) / (365.2425 / 12))::int AS age, m.currency, sum(m.seller_minor)::int AS n
    FROM claim c JOIN shipment s ON s.id = c.shipment_id JOIN settlement m ON m.claim_id = c.id AND m.seller_minor <> 0
    WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4, 5 HAVING sum(m.seller_minor) <> 0`,
  spread: `SELECT kit_revision_id, vehicle_id, month, currency, count(*)::int AS claims, sum(amount * amount)::text AS squared
    FROM (
      SELECT s.kit_revision_id, coalesce(c.vehicle_id, s.vehicle_id) AS vehicle_id, to_char(s.shipped_on, 'YYYY-MM') AS month, m.currency, sum(m.seller_minor) AS amount
      FROM claim c JOIN shipment s ON s.id = c.shipment_id JOIN settlement m ON m.claim_id = c.id AND m.seller_minor <> 0
      WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4, c.id
    ) x GROUP BY 1, 2, 3, 4`,
  filed_cell: `SELECT s.kit_revision_id, to_char(s.shipped_on, 'YYYY-MM') AS month, to_char(c.filed_at AT TIME ZONE 'UTC', 'YYYY-MM') AS filed,
      floor((c.filed_at::date - (s.shipped_on + 21)) / (365.2425 / 12))::int AS age, count(*)::int AS n
    FROM claim c JOIN shipment s ON s.id = c.shipment_id WHERE c.stage NOT IN ('draft', 'merged') GROUP BY 1, 2, 3, 4`,
} as const;

const OUTCOMES = ["fit", "kit", "engine", "unit", "normal", "transit", "elsewhere", "undecided", "ended"];
const CELLS = {
  shipped_cell: "SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, batch, units AS n FROM shipped_cell WHERE units <> 0",
  claim_cell: `SELECT * FROM (SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, o.outcome, o.n
    FROM claim_cell CROSS JOIN LATERAL (VALUES ${OUTCOMES.map((outcome) => `('${outcome}', ${outcome})`).join(", ")}) o (outcome, n)) x WHERE n <> 0`,
  aged_cell: `SELECT * FROM (SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, month_in_service AS age, o.outcome, o.n
    FROM aged_cell CROSS JOIN LATERAL (VALUES ${OUTCOMES.map((outcome) => `('${outcome}', ${outcome})`).join(", ")}) o (outcome, n)) x WHERE n <> 0`,
  cause_cell: `SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, role::text, cause, origin::text, sum(millionths)::int AS n
    FROM cause_cell GROUP BY 1, 2, 3, 4, 5, 6 HAVING sum(millionths) <> 0`,
  cost_cell: `SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, cause, currency, sum(amount_minor)::int AS n FROM cost_cell GROUP BY 1, 2, 3, 4, 5 HAVING sum(amount_minor) <> 0`,
  spent_cell: "SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, currency, amount_minor::int AS n FROM spent_cell WHERE amount_minor <> 0",
  aged_spent_cell: "SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, month_in_service AS age, currency, amount_minor::int AS n FROM aged_spent_cell WHERE amount_minor <> 0",
  spread: "SELECT kit_revision_id, vehicle_id, to_char(month, 'YYYY-MM') AS month, currency, claims, squared_minor::text AS squared FROM spent_cell WHERE claims <> 0",
  filed_cell: "SELECT kit_revision_id, to_char(month, 'YYYY-MM') AS month, to_char(filed_month, 'YYYY-MM') AS filed, month_in_service AS age, claims AS n FROM filed_cell WHERE claims <> 0",
} as const;

async function lines(sql: string): Promise<string[]> {
  return (await connectionPool().query<Record<string, unknown>>(sql)).rows.map((row) => JSON.stringify(row)).sort();
}

async function expectCellsToBeRight() {
  for (const table of Object.keys(PLAIN) as (keyof typeof PLAIN)[]) expect({ [table]: await lines(CELLS[table]) }).toEqual({ [table]: await lines(PLAIN[table]) });
}

async function catchUp() {
  while ((await refreshReportCells()) !== 0);
}

let clock = Date.parse("2026-06-01");

/** One act of somebody at work; some are thought better of and rolled back. */
async function act({ below, of }: ReturnType<typeof luck>) {
  const claimId = of(claims);
  clock += 1000;
  // Taken before anything waits, so that no two acts have the same and none books what another has.
  const now = new Date(clock);
  const by = { actor: { kind: "staff", personId: staff.personId } } as const;
  const doubtful = below(8) === 0;
  const kind = below(9);
  await inTransaction(async (db) => {
    if (kind <= 2) {
      const moved = await moveClaim(db, claimId, "decide", by, { changes: { decidedAt: now } });
      if (!moved.ok) return;
      const attribution = of(ATTRIBUTIONS);
      const origin = attribution === "fit" ? "fitter" : attribution === "kit" ? "kit" : null;
      const primaryCause = of(CAUSES);
      const contributingCauses = below(3) === 0 && primaryCause !== "C07" ? ["C07"] : [];
      await insertVerdict(db, { claimId, primaryCause, contributingCauses, attribution, origin, way: below(4) === 0 ? "overruled" : "confirmed", reason: "Seen.", basis: "technician", remedy: "advice", ...NOTHING_PROMISED, letterPhotos: [], letter: "Dear A", rankingId: null, decidedById: staff.personId, decidedAt: now });
    } else if (kind === 3) await reopenDecidedClaim(db, claimId, by, "", now);
    else if (kind <= 5) {
      const [booked, amountMinor, sellerPercent] = of([["goodwill", 500, 60], ["core_kept", 200, 100], ["core_held", 300, 100], ["refund", 12_000, 100]] as const);
      const moves = movesOf(booked, amountMinor, shareOut(amountMinor, { sellerPercent, supplierPercent: 0 }));
      await insertSettlement(db, { claimId, kind: booked, amountMinor, ...moves, currency: of(["EUR", "GBP"]), round: now.getTime() / 1000, bookingKey: randomUUID(), note: "", bookedById: staff.personId, bookedAt: now, reversesId: null });
    }
    else if (kind === 6) await moveClaim(db, claimId, of(["withdraw", "clear"]), by);
    else if (kind === 7) await db.shipment.update({ where: { id: of(shipments) }, data: { vehicleId: of([...vehicles, null]), shippedOn: new Date(of(MONTHS)) } });
    else await db.unit.update({ where: { id: of(units) }, data: { batch: of(["B0", "B1", "B9"]) } });
    if (doubtful) throw new Error("thought better of it");
  }).catch((error: Error) => {
    if (error.message !== "thought better of it") throw error;
  });
}

it("cells say what a plain count over the claims and shipments says, after a storm of verdicts, reopenings, settlements and overrules", async () => {
  await catchUp();
  await expectCellsToBeRight();
  let raging = true;
  const refreshed = (async () => {
    let times = 0;
    for (; raging; times += 1) await refreshReportCells();
    return times;
  })();
  await Promise.all(
    [11, 22, 33, 44].map(async (seed) => {
      const { below, of } = luck(seed);
      for (let count = 0; count < ACTS / 4; count += 1) await act({ below, of });
    }),
  );
  raging = false;
  expect(await refreshed).toBeGreaterThan(1);
  await catchUp();
  expect((await lines(CELLS.cause_cell)).length).toBeGreaterThan(20);
  await expectCellsToBeRight();
});

it("cells made anew are the same", async () => {
  const before = await lines(CELLS.cause_cell);
  await rebuildReportCells();
  expect(await lines(CELLS.cause_cell)).toEqual(before);
  await expectCellsToBeRight();
});

it("of two that refresh at once one leaves it to the other", async () => {
  const client = await connectionPool().connect();
  try {
    await client.query("BEGIN");
    await client.query("SELECT pg_advisory_xact_lock(7316402552)");
    expect(await refreshReportCells()).toBeNull();
  } finally {
    await client.query("ROLLBACK");
    client.release();
  }
});
