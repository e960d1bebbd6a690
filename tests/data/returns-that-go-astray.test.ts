import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { CARRIAGE_DAYS, REMIND_DAYS_BEFORE } from "@/lib/domain/claims/return-dates";
import { authoriseReturn } from "@/lib/operations/authorise-return";
import { matchParcel } from "@/lib/operations/decide-on-parcel";
import { giveUpReturn } from "@/lib/operations/end-return";
import { keepReturnDates } from "@/lib/operations/keep-return-dates";
import { loadMyReturn } from "@/lib/operations/load-my-return";
import { loadReturns } from "@/lib/operations/load-returns";
import { loadScanned } from "@/lib/operations/load-scanned";
import { openInspection } from "@/lib/operations/open-inspection";
import { prolongReturn } from "@/lib/operations/prolong-return";
import { receiveReturn } from "@/lib/operations/receive-return";
import { saveInspectionStep } from "@/lib/operations/save-inspection-step";
import { setUnitAside, takeForSameUnit } from "@/lib/operations/settle-serial";
import { takeInParcel } from "@/lib/operations/take-in-parcel";
import { recordCarriage, tellCarriage } from "@/lib/operations/tell-carriage";
import { aClaim } from "@/tests/builders/a-claim";
import { aStaffActor } from "@/tests/builders/a-person";
import { aFiledClaim, aForm } from "@/tests/builders/intake";

const DAY_MS = 86_400_000;

let support: StaffActor;
let bench: StaffActor;
let other: StaffActor;
beforeAll(async () => {
  support = await aStaffActor("support");
  bench = await aStaffActor("bench");
  other = await aStaffActor("support");
});

async function aReturn(serial: string | null = null) {
  const claim = await aClaim({ serial });
  const authorised = await authoriseReturn(support, claim.id, { version: 0, note: "" });
  if (!authorised.ok) throw new Error(`aReturn: ${authorised.reason}`);
  const { id, expiresAt } = await database().return.findUniqueOrThrow({ where: { number: authorised.number } });
  return { claimId: claim.id, reference: claim.reference, returnId: id, number: authorised.number, expiresAt };
}

async function aStray(serial = "") {
  const taken = await takeInParcel(bench, { id: randomUUID(), returnNumber: "", reason: "no_number", holds: "A turbocharger in a crate", serial, sender: "", condition: "sound", note: "" });
  if (!taken.ok) throw new Error(`aStray: ${taken.reason}`);
  return database().parcel.findUniqueOrThrow({ where: { number: taken.number } });
}

const daysAfter = (date: Date, days: number) => new Date(date.getTime() + days * DAY_MS);
const returnOf = (id: string) => database().return.findUniqueOrThrow({ where: { id } });
const stageOf = async (id: string) => (await database().claim.findUniqueOrThrow({ where: { id } })).stage;
const mailsTo = (claimId: string, onceKey: string) => database().outgoingMail.count({ where: { claimId, onceKey: { startsWith: onceKey } } });

describe("a unit that does not come", () => {
  test("is reminded of once before its last day, and its return ends the day after it, with one mail each", async () => {
    const { claimId, returnId, expiresAt } = await aReturn();
    const settings = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    expect(settings.returnWithinDays).toBeGreaterThanOrEqual(2 * REMIND_DAYS_BEFORE);
    await keepReturnDates(daysAfter(expiresAt, -REMIND_DAYS_BEFORE - 1));
    expect(await mailsTo(claimId, "return-reminder:")).toBe(0);
    for (const days of [-REMIND_DAYS_BEFORE, -1]) await keepReturnDates(daysAfter(expiresAt, days));
    expect(await mailsTo(claimId, "return-reminder:")).toBe(1);
    await keepReturnDates(daysAfter(expiresAt, 0.9));
    expect((await returnOf(returnId)).state).toBe("authorised");
    for (const days of [1.1, 2]) await keepReturnDates(daysAfter(expiresAt, days));
    expect((await returnOf(returnId)).state).toBe("expired");
    expect(await stageOf(claimId)).toBe("in_review");
    expect(await mailsTo(claimId, "return-ended:")).toBe(1);
  });

  test("and is on its way is never ended by the calendar, but by a person who gives it up, once", async () => {
    const { claimId, returnId, expiresAt } = await aReturn();
    await recordCarriage(support, claimId, aForm({ carrier: "Coriolis", trackingNumber: "" }));
    await keepReturnDates(daysAfter(expiresAt, 60));
    expect((await returnOf(returnId)).state).toBe("in_carriage");
    expect(await giveUpReturn(support, (await aClaim()).id, returnId)).toEqual({ ok: false, reason: "not-found" });
    const both = await Promise.all([giveUpReturn(support, claimId, returnId), giveUpReturn(other, claimId, returnId)]);
    expect(both.map(({ ok }) => ok).toSorted()).toEqual([false, true]);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "not-legal-here" });
    expect(await stageOf(claimId)).toBe("in_review");
    expect(await mailsTo(claimId, "return-ended:")).toBe(1);
  });

  test("gets more time from the day it is given, whether it has run out or not, and its claim waits again", async () => {
    const { claimId, returnId, expiresAt } = await aReturn();
    const after = daysAfter(expiresAt, 2);
    await keepReturnDates(after);
    expect(await prolongReturn(support, claimId, { days: 7 }, after)).toEqual({ ok: true, expiresAt: daysAfter(after, 7) });
    expect(await returnOf(returnId)).toMatchObject({ state: "authorised", expiresAt: daysAfter(after, 7), remindedAt: null });
    expect(await stageOf(claimId)).toBe("awaiting_the_unit");
    expect(await mailsTo(claimId, "return-prolonged:")).toBe(1);
    await receiveReturn(bench, { returnId, serialSeen: "" });
    expect(await prolongReturn(support, claimId, { days: 7 })).toEqual({ ok: false, reason: "not-legal-here" });
  });

  test("is taken in when it comes after all, and an open claim waits for the bench again", async () => {
    const { claimId, returnId, number, expiresAt } = await aReturn();
    await keepReturnDates(daysAfter(expiresAt, 2));
    expect(await loadScanned(bench, number)).toMatchObject({ scanned: { is: "awaited", unit: { state: "expired" } } });
    expect(await receiveReturn(bench, { returnId, serialSeen: "" })).toMatchObject({ ok: true });
    expect((await returnOf(returnId)).state).toBe("received");
    expect(await stageOf(claimId)).toBe("awaiting_the_unit");
  });
});

describe("who carries the parcel", () => {
  test("is told by the customer and corrected by staff; the day it set out stays the first", async () => {
    const customer = await aFiledClaim();
    const { version } = await database().claim.findUniqueOrThrow({ where: { id: customer.claimId } });
    expect(await authoriseReturn(support, customer.claimId, { version, note: "" })).toMatchObject({ ok: true });
    expect(await tellCarriage(customer, aForm({ carrier: "", trackingNumber: "77-1" }))).toMatchObject({ ok: false, reason: "refused", messages: { carrier: expect.any(String) } });
    const sentAt = new Date();
    expect(await tellCarriage(customer, aForm({ carrier: "Coriolis", trackingNumber: "77-1" }), sentAt)).toEqual({ ok: true });
    expect(await recordCarriage(support, customer.claimId, aForm({ carrier: "Coriolis", trackingNumber: "77-2" }), daysAfter(sentAt, 1))).toEqual({ ok: true });
    expect(await database().return.findFirst({ where: { claimId: customer.claimId } })).toMatchObject({ state: "in_carriage", carrier: "Coriolis", trackingNumber: "77-2", sentAt });
    expect(await loadMyReturn(customer)).toMatchObject({ state: "in_carriage", trackingNumber: "77-2" });
    const late = await loadReturns(bench, daysAfter(sentAt, CARRIAGE_DAYS + 2.5));
    expect(late.ok && late.coming.units.find(({ claimId }) => claimId === customer.claimId)?.daysOverdue).toBe(2);
  });

  test("said after the time ran out lets the claim wait again, and of a unit that is here is not taken", async () => {
    const { claimId, returnId, expiresAt } = await aReturn();
    await keepReturnDates(daysAfter(expiresAt, 2));
    expect(await recordCarriage(support, claimId, aForm({ carrier: "Coriolis" }))).toEqual({ ok: true });
    expect(await stageOf(claimId)).toBe("awaiting_the_unit");
    await receiveReturn(bench, { returnId, serialSeen: "" });
    expect(await recordCarriage(support, claimId, aForm({ carrier: "Coriolis" }))).toEqual({ ok: false, reason: "not-awaited" });
  });
});

describe("a parcel that is not the awaited unit", () => {
  test("second under a number goes to quarantine under it, and the unit stays where it is", async () => {
    const { claimId, returnId, number } = await aReturn();
    await receiveReturn(bench, { returnId, serialSeen: "" });
    const second = await takeInParcel(bench, { id: randomUUID(), returnNumber: number, reason: "second_parcel", holds: "Two gaskets", serial: "", sender: "", condition: null, note: "" });
    expect(second).toMatchObject({ ok: true });
    const parcels = await database().parcel.findMany({ where: { claimId }, include: { handovers: { include: { to: true } } } });
    expect(parcels).toMatchObject([{ reason: "second_parcel", holds: "Two gaskets", returnId: null, handovers: [{ to: { kind: "quarantine" } }] }]);
    expect((await returnOf(returnId)).state).toBe("received");
    expect(await takeInParcel(bench, { id: randomUUID(), returnNumber: `R-${randomUUID()}`, reason: "second_parcel", holds: "Two gaskets", serial: "", sender: "", condition: null, note: "" })).toEqual({ ok: false, reason: "unknown-number" });
  });

  test("but another part leaves the unit awaited", async () => {
    const { returnId, number } = await aReturn();
    expect(await takeInParcel(bench, { id: randomUUID(), returnNumber: number, reason: "wrong_part", holds: "A starter motor", serial: "", sender: "", condition: null, note: "" })).toMatchObject({ ok: true });
    expect((await returnOf(returnId)).state).toBe("authorised");
  });

  test("without a number is matched to its claim later, by one of two who try, with all the places it has been", async () => {
    const stray = await aStray();
    const { returnId, number, claimId } = await aReturn();
    const both = await Promise.all([matchParcel(support, stray.id, { reference: number }), matchParcel(other, stray.id, { reference: number })]);
    expect(both.filter(({ ok }) => ok)).toEqual([{ ok: true, claimId }]);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "decided-meanwhile" });
    expect((await returnOf(returnId)).state).toBe("received");
    expect(await database().parcel.findUniqueOrThrow({ where: { id: stray.id }, include: { handovers: true } })).toMatchObject({ returnId, reason: null, handovers: [{ number: 1 }] });
    expect(await matchParcel(support, (await aStray()).id, { reference: number })).toEqual({ ok: false, reason: "unit-is-here" });
    // By the reference of a claim that never asked for its unit.
    const claim = await aClaim();
    const unasked = await aStray("BK-1042");
    expect(await matchParcel(support, unasked.id, { reference: claim.reference })).toEqual({ ok: true, claimId: claim.id });
    expect(await database().return.findFirst({ where: { claimId: claim.id } })).toMatchObject({ state: "received", serialSeen: "BK-1042" });
    expect(await stageOf(claim.id)).toBe("awaiting_the_unit");
    expect(await matchParcel(support, (await aStray()).id, { reference: "K7MP" })).toEqual({ ok: false, reason: "unknown-number" });
  });
});

describe("a unit under another serial than the claim's", () => {
  const note = "The plate is new, the batch mark is the old one.";

  test("is taken for the unit by one of two who decide, or set aside, and then the right one is awaited with new time", async () => {
    const same = await aReturn("BK-1042");
    await receiveReturn(bench, { returnId: same.returnId, serialSeen: "BK-9999" });
    const both = await Promise.all([takeForSameUnit(support, { returnId: same.returnId, note }), setUnitAside(other, { returnId: same.returnId, note })]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "not-in-doubt" });

    const aside = await aReturn("BK-1042");
    await receiveReturn(bench, { returnId: aside.returnId, serialSeen: "BK-9999" });
    const now = daysAfter(new Date(), 3);
    expect(await setUnitAside(support, { returnId: aside.returnId, note }, now)).toEqual({ ok: true });
    const { returnWithinDays } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    expect(await returnOf(aside.returnId)).toMatchObject({ state: "authorised", serialSeen: null, receivedAt: null, expiresAt: daysAfter(now, returnWithinDays) });
    expect(await database().parcel.findMany({ where: { claimId: aside.claimId } })).toMatchObject([{ reason: "other_unit", serial: "BK-9999", holds: note }]);
    expect(await receiveReturn(bench, { returnId: aside.returnId, serialSeen: "BK-1042" })).toEqual({ ok: true, serial: "matches" });
  });

  test("is set aside with the inspection that was under way: what it found stands no longer, and the right unit begins anew", async () => {
    const { claimId, returnId } = await aReturn("BK-1042");
    await receiveReturn(bench, { returnId, serialSeen: "" });
    await openInspection(bench, claimId);
    await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "present" }));
    expect(await saveInspectionStep(bench, claimId, "identity", aForm({ plate: "other", serialRead: "BK-9999" }))).toEqual({ ok: false, reason: "another-unit" });
    const suspected = (await database().claim.findUniqueOrThrow({ where: { id: claimId } })).unitProbability ?? 0;
    expect(await setUnitAside(support, { returnId, note })).toEqual({ ok: true });
    expect(await database().finding.count({ where: { claimId, observer: "bench", replacedAt: null } })).toBe(0);
    expect((await database().claim.findUniqueOrThrow({ where: { id: claimId } })).unitProbability ?? 0).toBeLessThan(suspected);
    await receiveReturn(bench, { returnId, serialSeen: "BK-1042" });
    const colleague = await aStaffActor("bench");
    expect(await openInspection(colleague, claimId)).toEqual({ ok: true });
    expect(await saveInspectionStep(colleague, claimId, "rings", aForm({ F45: "present" }))).toEqual({ ok: true, recorded: ["F45"] });
  });

  test("that matches is not in doubt", async () => {
    const { returnId } = await aReturn("BK-1042");
    await receiveReturn(bench, { returnId, serialSeen: "BK-1042" });
    expect(await takeForSameUnit(support, { returnId, note })).toEqual({ ok: false, reason: "not-in-doubt" });
    expect(await setUnitAside(support, { returnId: randomUUID(), note })).toEqual({ ok: false, reason: "not-found" });
  });
});
