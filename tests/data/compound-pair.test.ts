import { randomUUID } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { measuredOfPairInWords } from "@/app/returns/return-words";
import { database } from "@/lib/data/client";
import { authoriseReturn } from "@/lib/operations/authorise-return";
import { correctSerialSeen } from "@/lib/operations/correct-serial-seen";
import { loadInspection } from "@/lib/operations/load-inspection";
import { loadReturnsOfClaim } from "@/lib/operations/load-returns";
import { loadScanned } from "@/lib/operations/load-scanned";
import { receiveReturn } from "@/lib/operations/receive-return";
import { loadCall, saveCall, startCall } from "@/lib/operations/take-down-call";
import { aStaffActor } from "../builders/a-person";
import { aFiledClaim, OWNER_ANSWERS } from "../builders/intake";

let support: StaffActor;
let bench: StaffActor;
const LARGE = "VT66L-2501-0001";
const SMALL = "VT50H-2501-0002";

beforeAll(async () => {
  support = await aStaffActor("support");
  bench = await aStaffActor("bench");
  const db = database();
  const turbo = await db.turboModel.create({ data: { code: "VT50H", name: "VT-50H", bearing: "journal", staging: "high_pressure", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.45, drainBoreMm: 20 } });
  const kit = await db.kit.create({ data: { code: "KH-820", name: "Compound kit", turboModelId: turbo.id } });
  const revision = await db.kitRevision.create({ data: { kitId: kit.id, revision: "A", introducedOn: new Date("2024-01-01") } });
  const vehicle = await db.vehicle.create({ data: { make: "Torvane", model: "Haulmaster", engine: "6.7 D", fuel: "diesel", yearFrom: 2006 } });
  await db.fitment.create({ data: { kitId: kit.id, vehicleId: vehicle.id } });
  const unit = await db.unit.create({ data: { serial: SMALL, batch: "2501", turboModelId: turbo.id } });
  const order = await db.order.create({ data: { number: "BT-82", customerEmail: "ada@example.com", customerName: "Ada", country: "DE", placedOn: new Date("2026-01-01") } });
  await db.shipment.create({ data: { orderId: order.id, kitRevisionId: revision.id, unitId: unit.id, vehicleId: vehicle.id, shippedOn: new Date("2026-01-02") } });
});

/** The owner of a small unit says that both leak, and reads the serial of the large one. */
const OF_BOTH: typeof OWNER_ANSWERS = [
  ["purchase", { by: "order" }],
  ["order", { number: "BT-82", email: "ada@example.com" }],
  ...OWNER_ANSWERS.filter(([screen]) => !["purchase", "kit", "vehicle"].includes(screen)).map(([screen, values]) => [screen, screen === "oil" ? { ...values, pairUnit: "both", otherSerial: LARGE } : values] as const),
];

async function aReturnOfBoth() {
  const { claimId } = await aFiledClaim(OF_BOTH);
  const { version } = await database().claim.findUniqueOrThrow({ where: { id: claimId } });
  const authorised = await authoriseReturn(support, claimId, { version, note: "" });
  if (!authorised.ok) throw new Error(authorised.reason);
  const { id: returnId } = await database().return.findUniqueOrThrow({ where: { number: authorised.number } });
  return { claimId, returnId, number: authorised.number };
}

test("a claim about both units is filed with the large one's serial first, whichever was bought", async () => {
  const { claimId } = await aFiledClaim(OF_BOTH);
  expect(await database().claim.findUniqueOrThrow({ where: { id: claimId } })).toMatchObject({ pairUnit: "both", serial: LARGE, otherSerial: SMALL });
});

test("at the door either serial leads to the return, and is of the claim; both come under the one return", async () => {
  const { claimId, returnId, number } = await aReturnOfBoth();
  for (const serial of [LARGE, SMALL]) {
    const scanned = await loadScanned(bench, serial);
    expect(scanned.ok && scanned.scanned.is === "unknown" && scanned.scanned.expected.map((one) => one.number), serial).toContain(number);
  }
  expect(await receiveReturn(bench, { returnId, serialSeen: "vt50h 2501 0002" })).toEqual({ ok: true, serial: "other-of-pair" });
  expect(await correctSerialSeen(bench, { returnId, serialSeen: SMALL, otherSerialSeen: LARGE })).toEqual({ ok: true, serial: "matches" });
  expect(await loadReturnsOfClaim(support, claimId)).toMatchObject({ ok: true, returns: [{ serialSeen: SMALL, otherSerialSeen: LARGE, serialMatch: "matches" }] });
});

test("the bench is told the limits of the sold unit's model, and of the other one none", async () => {
  const { claimId, returnId } = await aReturnOfBoth();
  const sheet = async () => {
    const loaded = await loadInspection(bench, claimId);
    if (!loaded.ok) throw new Error(loaded.reason);
    return { model: loaded.unit.turbo?.name ?? null, of: loaded.steps.flatMap(({ gauges }) => gauges.filter(({ code }) => code === "F41").map((gauge) => gauge.of)), words: measuredOfPairInWords(loaded.unit) };
  };
  await receiveReturn(bench, { returnId, serialSeen: LARGE });
  expect(await sheet()).toEqual({ model: null, of: ["published limits"], words: null });
  await correctSerialSeen(bench, { returnId, serialSeen: SMALL });
  expect(await sheet()).toEqual({ model: "VT-50H", of: ["VT-50H"], words: null });
  await correctSerialSeen(bench, { returnId, serialSeen: LARGE, otherSerialSeen: SMALL });
  expect(await sheet()).toEqual({ model: "VT-50H", of: ["VT-50H"], words: expect.stringContaining("Measure the small, high-pressure unit, which we sold") });
});

test("a unit that is neither of the pair is another one", async () => {
  const { returnId } = await aReturnOfBoth();
  expect(await receiveReturn(bench, { returnId, serialSeen: "BK-9999", otherSerialSeen: "" })).toEqual({ ok: true, serial: "differs" });
});

test("the page of a call asks for the unit once it is known to be one of a pair", async () => {
  const started = await startCall(support, { number: SMALL, language: "en", filingKey: randomUUID() });
  if (!started.ok) throw new Error(started.reason);
  const oil = { "asked:oil": "yes", "oil.place": "compressor", "oil.elsewhere": "dry" };
  expect(await saveCall(support, started.claimId, oil, false)).toEqual({ ok: true });
  const sectionOf = async () => {
    const call = await loadCall(support, started.claimId);
    return call.ok ? call.sections.find(({ screen }) => screen === "oil") : undefined;
  };
  expect(await sectionOf()).toMatchObject({ isAnswered: false, fields: expect.arrayContaining([expect.objectContaining({ name: "oil.pairUnit" })]) });
});
