import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { bookSettlement } from "@/lib/operations/book-settlement";
import { endDeposit } from "@/lib/operations/end-deposit";
import { exportBookings, loadBookings } from "@/lib/operations/load-bookings";
import { loadSettlements } from "@/lib/operations/load-settlements";
import { reverseSettlement } from "@/lib/operations/reverse-settlement";
import { settleClaim } from "@/lib/operations/settle-claim";
import { aClaim, aDecidedClaim } from "@/tests/builders/a-claim";
import { aStaffActor } from "@/tests/builders/a-person";

const booking = (changes: Record<string, string> = {}) => ({ version: "0", bookingKey: randomUUID(), kind: "refund", amount: "1 129,50", note: "", ...changes });
const reversal = (settlementId: string | undefined, note = "Wrong claim") => ({ bookingKey: randomUUID(), settlementId: settlementId ?? "", note });

let decider: StaffActor;
let support: StaffActor;
beforeAll(async () => {
  decider = await aStaffActor("support");
  support = await aStaffActor("support");
});

const bookedFor = (claimId: string) => database().settlement.findMany({ where: { claimId }, orderBy: [{ bookedAt: "asc" }, { id: "asc" }] });
const stageOf = async (claimId: string) => (await database().claim.findUniqueOrThrow({ where: { id: claimId } })).stage;
const totalsOf = async (claimId: string) => {
  const money = await loadSettlements(support, claimId);
  return money.ok ? money.totals : null;
};

describe("booking", () => {
  test("keeps the amount in the smallest unit of the seller's currency, and settles the claim once all that was promised is booked", async () => {
    const claim = await aDecidedClaim(decider.personId);
    expect(await bookSettlement(support, claim.id, booking({ kind: "carriage_back", amount: "18" }))).toEqual({ ok: true, settled: false });
    expect(await bookSettlement(support, claim.id, booking())).toEqual({ ok: true, settled: true });
    const { currency } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    expect(await bookedFor(claim.id)).toMatchObject([{ amountMinor: 1_800 }, { amountMinor: 112_950, sellerMinor: 112_950, currency, kind: "refund", bookedById: support.personId }]);
    expect(await database().claim.findUniqueOrThrow({ where: { id: claim.id } })).toMatchObject({ stage: "settled", settledAt: expect.any(Date) });
  });

  test("settles without money where nothing was promised, and not while a promise is open", async () => {
    const [advice, refund] = [await aDecidedClaim(decider.personId, "advice"), await aDecidedClaim(decider.personId)];
    expect(await settleClaim(support, refund.id, { version: 0 })).toEqual({ ok: false, reason: "promise-open" });
    expect(await settleClaim(support, advice.id, { version: 3 })).toEqual({ ok: false, reason: "changed-meanwhile" });
    const both = await Promise.all([0, 1].map(() => settleClaim(support, advice.id, { version: 0 })));
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await bookedFor(advice.id)).toEqual([]);
    expect([await stageOf(advice.id), await stageOf(refund.id)]).toEqual(["settled", "decided"]);
  });

  test("of less than the sum promised keeps the claim open; who bears what is shared out exactly", async () => {
    const claim = await aDecidedClaim(decider.personId, "goodwill");
    const { currency } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    await database().verdict.updateMany({ where: { claimId: claim.id }, data: { promisedMinor: 10_001, promisedCurrency: currency, sellerPercent: 70 } });
    expect(await bookSettlement(support, claim.id, booking({ kind: "goodwill", amount: "99", sellerPercent: "70" }))).toEqual({ ok: true, settled: false });
    const [short] = await bookedFor(claim.id);
    await reverseSettlement(support, claim.id, reversal(short?.id));
    expect(await bookSettlement(support, claim.id, booking({ kind: "goodwill", amount: "100.01", sellerPercent: "70", supplierPercent: "20" }))).toEqual({ ok: true, settled: true });
    expect(await totalsOf(claim.id)).toEqual([{ currency, allMinor: 10_001, sellerMinor: 7_001, customerMinor: 1_000, supplierMinor: 2_000, heldMinor: 0 }]);
  });

  test("is done once for each kind, also of two at once, and the same form sent twice is one booking", async () => {
    const claim = await aDecidedClaim(decider.personId, "part_sent");
    const both = await Promise.all([0, 1].map(() => bookSettlement(support, claim.id, booking())));
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "booked-already" });
    const sent = booking({ kind: "goodwill", amount: "20.5" });
    expect(await Promise.all([0, 1, 2].map(() => bookSettlement(support, claim.id, sent)))).toEqual(Array(3).fill({ ok: true, settled: false }));
    expect(await totalsOf(claim.id)).toMatchObject([{ allMinor: 115_000 }]);
    expect(await bookedFor(claim.id)).toHaveLength(2);
  });

  test("above what one person decides alone is for another than who decided, unless a second person approved", async () => {
    const { secondPersonAbove } = await database().sellerSettings.update({ where: { id: 1 }, data: { secondPersonAbove: 500 } });
    const [alone, approved] = [await aDecidedClaim(decider.personId), await aDecidedClaim(decider.personId)];
    await database().verdict.updateMany({ where: { claimId: approved.id }, data: { approvedById: support.personId, approvedAt: new Date() } });
    const most = booking({ amount: String(secondPersonAbove) });
    const more = booking({ kind: "goodwill", amount: "0.01" });
    expect(await bookSettlement(decider, alone.id, most)).toMatchObject({ ok: true });
    expect(await bookSettlement(decider, alone.id, { ...more, version: "1" })).toEqual({ ok: false, reason: "takes-a-second-person" });
    expect(await bookSettlement(decider, alone.id, { ...more, version: "1", sellerPercent: "0" })).toMatchObject({ ok: true });
    expect(await bookSettlement(support, alone.id, booking({ kind: "part", amount: "700", version: "1" }))).toMatchObject({ ok: true });
    expect(await bookSettlement(decider, approved.id, booking())).toMatchObject({ ok: true });
  });

  test("is refused before there is a verdict, and where the claim has changed since it was read", async () => {
    const open = await aClaim();
    expect(await bookSettlement(support, open.id, booking())).toEqual({ ok: false, reason: "not-legal-here" });
    const decided = await aDecidedClaim(decider.personId);
    expect(await bookSettlement(support, decided.id, booking({ version: "3" }))).toEqual({ ok: false, reason: "changed-meanwhile" });
    expect(await bookSettlement(support, randomUUID(), booking())).toEqual({ ok: false, reason: "not-found" });
  });

  test.each(["1.234,50", "12.345", "-5", "1e3", "five", "99999999999", "0", ""])("refuses %j as an amount", async (amount) => {
    const claim = await aDecidedClaim(decider.personId);
    expect(await bookSettlement(support, claim.id, booking({ amount }))).toMatchObject({ ok: false, reason: "refused", issues: [{ path: ["amount"] }] });
    expect(await bookedFor(claim.id)).toEqual([]);
  });

  test.each([{ sellerPercent: "101" }, { sellerPercent: "80", supplierPercent: "30" }, { kind: "core_kept" }])("refuses %j", async (changes) => {
    const claim = await aDecidedClaim(decider.personId);
    expect(await bookSettlement(support, claim.id, booking(changes))).toMatchObject({ ok: false, reason: "refused" });
  });
});

describe("a deposit for the old part", () => {
  test("keeps the claim open until it is given back or kept, whole and once, also of two at once", async () => {
    const claim = await aDecidedClaim(decider.personId, "replacement");
    await bookSettlement(support, claim.id, booking({ kind: "core_held", amount: "150" }));
    expect(await bookSettlement(support, claim.id, booking({ kind: "replacement", amount: "560" }))).toEqual({ ok: true, settled: false });
    const deposit = (await bookedFor(claim.id)).find(({ kind }) => kind === "core_held");
    const ends = await Promise.all((["core_released", "core_kept"] as const).map((end) => endDeposit(support, claim.id, { bookingKey: randomUUID(), depositId: deposit?.id ?? "", end, note: "" })));
    expect(ends.filter(({ ok }) => ok)).toEqual([{ ok: true, settled: true }]);
    expect(ends.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "ended-already" });
    expect(await totalsOf(claim.id)).toMatchObject([{ heldMinor: 0, allMinor: 56_000 }]);
    expect(await reverseSettlement(support, claim.id, reversal(deposit?.id))).toEqual({ ok: false, reason: "deposit-ended" });
  });

  test("can be ended otherwise once that booking is reversed", async () => {
    const claim = await aDecidedClaim(decider.personId, "replacement");
    await bookSettlement(support, claim.id, booking({ kind: "core_held", amount: "150" }));
    const [deposit] = await bookedFor(claim.id);
    const end = (which: "core_released" | "core_kept") => endDeposit(support, claim.id, { bookingKey: randomUUID(), depositId: deposit?.id ?? "", end: which, note: "" });
    await end("core_released");
    await reverseSettlement(support, claim.id, reversal((await bookedFor(claim.id)).at(-1)?.id));
    expect(await end("core_kept")).toMatchObject({ ok: true });
    expect(await totalsOf(claim.id)).toMatchObject([{ heldMinor: 0, sellerMinor: -15_000, customerMinor: 15_000 }]);
    expect(await endDeposit(support, claim.id, { bookingKey: randomUUID(), depositId: randomUUID(), end: "core_kept", note: "" })).toEqual({ ok: false, reason: "not-found" });
  });
});

describe("reversing", () => {
  test("books the opposite share by share, once of two at once, so that it can be booked again", async () => {
    const claim = await aDecidedClaim(decider.personId, "part_sent");
    await bookSettlement(support, claim.id, booking({ sellerPercent: "60" }));
    const [first] = await bookedFor(claim.id);
    const both = await Promise.all([0, 1].map(() => reverseSettlement(support, claim.id, reversal(first?.id))));
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "reversed-already" });
    const booked = await bookedFor(claim.id);
    expect(booked.map(({ amountMinor, customerMinor }) => [amountMinor, customerMinor])).toEqual([[112_950, 45_180], [-112_950, -45_180]]);
    expect(await totalsOf(claim.id)).toMatchObject([{ allMinor: 0, sellerMinor: 0, customerMinor: 0 }]);
    expect(await reverseSettlement(support, claim.id, reversal(booked[1]?.id, "x"))).toEqual({ ok: false, reason: "is-a-reversal" });
    expect((await bookSettlement(support, claim.id, booking({ amount: "100" }))).ok).toBe(true);
  });

  test("of what a settled claim was promised tells that it is open again", async () => {
    const claim = await aDecidedClaim(decider.personId);
    await bookSettlement(support, claim.id, booking());
    const [first] = await bookedFor(claim.id);
    await reverseSettlement(support, claim.id, reversal(first?.id, "Wrong account"));
    expect(await loadSettlements(support, claim.id)).toMatchObject({ stage: "settled", promised: [{ kind: "refund", isKept: false }], mayBook: true });
    expect(await bookSettlement(support, claim.id, booking({ version: "1", amount: "100" }))).toEqual({ ok: true, settled: false });
  });

  test("reaches no booking of another claim", async () => {
    const [claim, other] = [await aDecidedClaim(decider.personId), await aDecidedClaim(decider.personId)];
    await bookSettlement(support, claim.id, booking());
    const [first] = await bookedFor(claim.id);
    expect(await reverseSettlement(support, other.id, reversal(first?.id))).toEqual({ ok: false, reason: "not-found" });
  });
});

test("a period's bookings add up by kind and come booking by booking as a table", async () => {
  const claim = await aDecidedClaim(decider.personId, "part_sent");
  const at = new Date("2031-05-31T23:59:00Z");
  await bookSettlement(support, claim.id, booking({ sellerPercent: "50" }), at);
  const [first] = await bookedFor(claim.id);
  await bookSettlement(support, claim.id, booking({ kind: "core_held", amount: "150" }), at);
  await reverseSettlement(support, claim.id, reversal(first?.id), new Date("2031-06-01T00:00:00Z"));
  const may = await loadBookings(support, { from: "2031-05", to: "2031-05" });
  expect(may).toMatchObject({ ok: true, totals: [{ allMinor: 112_950, sellerMinor: 56_475, heldMinor: 15_000 }] });
  expect(await loadBookings(support, { from: "2031-05", to: "2031-06" })).toMatchObject({ totals: [{ allMinor: 0, heldMinor: 15_000 }] });
  const file = await exportBookings(support, { from: "2031-05", to: "2031-06", table: "bookings" });
  expect(file.ok && file.table.rows.map(({ claim: reference, kind, all, seller, held, reversal: isReversal }) => [reference, kind, all, seller, held, isReversal])).toEqual([
    [claim.reference, "refund", 1129.5, 564.75, 0, "no"],
    [claim.reference, "deposit held for the old part", 150, 0, 150, "no"],
    [claim.reference, "refund", -1129.5, -564.75, 0, "yes"],
  ]);
});

test("what a claim, a period's kinds and its file come to is what the rows of the table add up to", async () => {
  const claim = await aDecidedClaim(decider.personId, "replacement");
  const at = (day: number) => new Date(Date.UTC(2033, 3, day, 12));
  await bookSettlement(support, claim.id, booking({ kind: "core_held", amount: "150" }), at(1));
  await bookSettlement(support, claim.id, booking({ kind: "goodwill", amount: "33.33", sellerPercent: "33", supplierPercent: "33" }), at(2));
  await reverseSettlement(support, claim.id, reversal((await bookedFor(claim.id)).at(-1)?.id), at(3));
  await bookSettlement(support, claim.id, booking({ kind: "goodwill", amount: "10.01", sellerPercent: "50", supplierPercent: "25" }), at(4));
  await bookSettlement(support, claim.id, booking({ kind: "replacement", amount: "560.10", sellerPercent: "70" }), at(5));
  await endDeposit(support, claim.id, { bookingKey: randomUUID(), depositId: (await bookedFor(claim.id))[0]?.id ?? "", end: "core_kept", note: "" }, at(6));
  const [sums] = await database().$queryRaw<Record<"allMinor" | "sellerMinor" | "customerMinor" | "supplierMinor" | "heldMinor", number>[]>`
    SELECT sum(seller_minor + customer_minor + supplier_minor)::int AS "allMinor", sum(seller_minor)::int AS "sellerMinor", sum(customer_minor)::int AS "customerMinor",
      sum(supplier_minor)::int AS "supplierMinor", sum(held_minor)::int AS "heldMinor"
    FROM settlement WHERE booked_at >= '2033-04-01Z' AND booked_at < '2033-05-01Z'`;
  // 10.01 and 560.10; the deposit that was kept changes hands, and nothing is held any more.
  expect(sums).toMatchObject({ allMinor: 57_011, heldMinor: 0 });
  expect(await totalsOf(claim.id)).toMatchObject([sums ?? {}]);
  const april = { from: "2033-04", to: "2033-04" };
  const report = await loadBookings(support, april);
  expect(report).toMatchObject({ ok: true, totals: [sums ?? {}] });
  const kinds = await database().$queryRaw`
    SELECT kind::text, sum(seller_minor)::int AS "sellerMinor", sum(held_minor)::int AS "heldMinor"
    FROM settlement WHERE booked_at >= '2033-04-01Z' AND booked_at < '2033-05-01Z' GROUP BY kind ORDER BY kind::text`;
  expect(report.ok && report.lines.map(({ kind, sellerMinor, heldMinor }) => ({ kind, sellerMinor, heldMinor })).sort((a, b) => (a.kind < b.kind ? -1 : 1))).toEqual(kinds);
  const file = await exportBookings(support, { ...april, table: "bookings" });
  const column = (of: "seller" | "customer" | "supplier" | "held") => (file.ok ? file.table.rows.reduce((sum, row) => sum + Math.round(Number(row[of]) * 100), 0) : null);
  expect([column("seller"), column("customer"), column("supplier"), column("held")]).toEqual([sums?.sellerMinor, sums?.customerMinor, sums?.supplierMinor, sums?.heldMinor]);
  const kindsFile = await exportBookings(support, { ...april, table: "sums" });
  expect(kindsFile.ok && kindsFile.table.rows.reduce((sum, { seller }) => sum + Math.round(Number(seller) * 100), 0)).toBe(sums?.sellerMinor);
});
