import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { may } from "@/lib/domain/claims/permissions";
import { ROLES } from "@/lib/domain/claims/roles";
import { bookSettlement } from "@/lib/operations/book-settlement";
import { loadSettlements } from "@/lib/operations/load-settlements";
import { reverseSettlement } from "@/lib/operations/reverse-settlement";
import { aClaim, aDecidedClaim } from "@/tests/builders/a-claim";
import { aStaffActor } from "@/tests/builders/a-person";

const booking = (changes: Record<string, string> = {}) => ({ version: "0", remedy: "refund", amount: "1 129,50", note: "", ...changes });

let support: StaffActor;
beforeAll(async () => {
  support = await aStaffActor("support");
});

const bookedFor = (claimId: string) => database().settlement.findMany({ where: { claimId }, orderBy: { bookedAt: "asc" } });

describe("booking", () => {
  test("keeps the amount in the smallest unit of the seller's currency and settles the claim", async () => {
    const claim = await aDecidedClaim(support.personId);
    expect(await bookSettlement(support, claim.id, booking({ settles: "yes" }))).toEqual({ ok: true, settled: true });
    const { currency } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    expect(await bookedFor(claim.id)).toMatchObject([{ amountMinor: 112_950, currency, remedy: "refund", bookedById: support.personId }]);
    const settled = await database().claim.findUniqueOrThrow({ where: { id: claim.id } });
    expect(settled).toMatchObject({ stage: "settled", settledAt: expect.any(Date) });
  });

  test("settles without money where no amount is written, and books nothing", async () => {
    const claim = await aDecidedClaim(support.personId, "advice");
    expect(await bookSettlement(support, claim.id, booking({ remedy: "advice", amount: "", settles: "yes" }))).toEqual({ ok: true, settled: true });
    expect(await bookedFor(claim.id)).toEqual([]);
    expect(await bookSettlement(support, claim.id, booking({ version: "1", remedy: "advice", amount: "0" }))).toEqual({ ok: false, reason: "nothing-to-do" });
  });

  test.each(["refund", "goodwill"])("refuses to settle a %s without an amount, and settles once it is booked", async (remedy) => {
    const claim = await aDecidedClaim(support.personId);
    expect(await bookSettlement(support, claim.id, booking({ remedy, amount: "", settles: "yes" }))).toEqual({ ok: false, reason: "amount-missing" });
    expect((await database().claim.findUniqueOrThrow({ where: { id: claim.id } })).stage).toBe("decided");
    expect(await bookSettlement(support, claim.id, booking({ remedy }))).toEqual({ ok: true, settled: false });
    expect(await bookSettlement(support, claim.id, booking({ remedy, amount: "", settles: "yes" }))).toEqual({ ok: true, settled: true });
  });

  test("is done once for each remedy, also of two at once", async () => {
    const claim = await aDecidedClaim(support.personId);
    const both = await Promise.all([bookSettlement(support, claim.id, booking()), bookSettlement(support, claim.id, booking())]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "booked-already" });
    expect((await bookSettlement(support, claim.id, booking({ remedy: "goodwill", amount: "20.5" }))).ok).toBe(true);
    expect(await loadSettlements(support, claim.id)).toMatchObject({ ok: true, totals: [{ amountMinor: 115_000 }] });
  });

  test("is refused before there is a verdict, and where the claim has changed since it was read", async () => {
    const open = await aClaim();
    expect(await bookSettlement(support, open.id, booking())).toEqual({ ok: false, reason: "not-legal-here" });
    const decided = await aDecidedClaim(support.personId);
    expect(await bookSettlement(support, decided.id, booking({ version: "3" }))).toEqual({ ok: false, reason: "changed-meanwhile" });
    expect(await bookSettlement(support, randomUUID(), booking())).toEqual({ ok: false, reason: "not-found" });
  });

  test.each(["1.234,50", "12.345", "-5", "1e3", "five", "99999999999"])("refuses %j as an amount", async (amount) => {
    const claim = await aDecidedClaim(support.personId);
    expect(await bookSettlement(support, claim.id, booking({ amount }))).toMatchObject({ ok: false, reason: "refused", issues: [{ path: ["amount"] }] });
    expect(await bookedFor(claim.id)).toEqual([]);
  });
});

describe("reversing", () => {
  test("books the opposite, so that all comes to nothing and the remedy can be booked again", async () => {
    const claim = await aDecidedClaim(support.personId);
    await bookSettlement(support, claim.id, booking());
    const [first] = await bookedFor(claim.id);
    const both = await Promise.all([0, 1].map(() => reverseSettlement(support, claim.id, { settlementId: first?.id ?? "", note: "Wrong claim" })));
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "reversed-already" });
    const booked = await bookedFor(claim.id);
    expect(booked.map(({ amountMinor }) => amountMinor)).toEqual([112_950, -112_950]);
    expect(await loadSettlements(support, claim.id)).toMatchObject({ ok: true, totals: [{ amountMinor: 0 }] });
    expect(await reverseSettlement(support, claim.id, { settlementId: booked[1]?.id ?? "", note: "x" })).toEqual({ ok: false, reason: "is-a-reversal" });
    expect((await bookSettlement(support, claim.id, booking({ amount: "100" }))).ok).toBe(true);
  });

  test.each([
    ["refund", true],
    ["repair", false],
  ] as const)("of all that was booked for a settled %s tells whether anything is paid, and lets it be booked again", async (remedy, isNothingPaid) => {
    const claim = await aDecidedClaim(support.personId, remedy);
    await bookSettlement(support, claim.id, booking({ remedy, settles: "yes" }));
    expect(await loadSettlements(support, claim.id)).toMatchObject({ stage: "settled", isNothingPaid: false });
    const [first] = await bookedFor(claim.id);
    await reverseSettlement(support, claim.id, { settlementId: first?.id ?? "", note: "Wrong account" });
    expect(await loadSettlements(support, claim.id)).toMatchObject({ stage: "settled", isNothingPaid, mayBook: true });
    expect(await bookSettlement(support, claim.id, booking({ version: "1", remedy, amount: "100" }))).toEqual({ ok: true, settled: false });
    expect(await loadSettlements(support, claim.id)).toMatchObject({ stage: "settled", isNothingPaid: false, totals: [{ amountMinor: 10_000 }] });
  });

  test("reaches no booking of another claim", async () => {
    const [claim, other] = [await aDecidedClaim(support.personId), await aDecidedClaim(support.personId)];
    await bookSettlement(support, claim.id, booking());
    const [first] = await bookedFor(claim.id);
    expect(await reverseSettlement(support, other.id, { settlementId: first?.id ?? "", note: "x" })).toEqual({ ok: false, reason: "not-found" });
  });
});

describe.each(ROLES)("a person of role %s", (role) => {
  test.each([
    ["book a settlement", "bookSettlement", (actor: StaffActor, claimId: string) => bookSettlement(actor, claimId, booking())],
    ["book a settlement", "reverseSettlement", (actor: StaffActor, claimId: string) => reverseSettlement(actor, claimId, { settlementId: randomUUID(), note: "x" })],
    ["see a claim", "loadSettlements", loadSettlements],
  ] as const)("needs %s for %s, and is told and recorded otherwise", async (permission, _, act) => {
    const actor = await aStaffActor(role);
    const claim = await aDecidedClaim(support.personId);
    const answer = await act(actor, claim.id);
    const refusals = await database().auditEntry.count({ where: { personId: actor.personId, action: "refused" } });
    if (may(role, permission)) expect(refusals).toBe(0);
    else {
      expect(answer).toEqual({ ok: false, reason: "not-allowed" });
      expect(refusals).toBe(1);
      expect(await bookedFor(claim.id)).toEqual([]);
    }
  });
});
