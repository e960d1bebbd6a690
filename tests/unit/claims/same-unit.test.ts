import { describe, expect, test } from "vitest";
import { noticesOf, sameSerialInWords, type SameUnitClaim } from "@/lib/domain/claims/same-unit";
import { CLAIM_STAGES, QUEUE_STAGES } from "@/lib/domain/claims/stages";

const claim = (given: Partial<SameUnitClaim>): SameUnitClaim => ({ id: "1", reference: "K7A-4821-HXQ", stage: "in_review", filedAt: null, isSameCustomer: false, isReplaced: false, ...given });
const kinds = (...claims: SameUnitClaim[]) => noticesOf(claims, null).map(({ kind }) => kind);

describe("the same serial in another complaint", () => {
  test("that is open is the same person's second, or the owner's and the garage's", () => {
    for (const stage of QUEUE_STAGES) {
      expect(kinds(claim({ stage, isSameCustomer: true }))).toEqual(["filed-twice"]);
      expect(kinds(claim({ stage }))).toEqual(["owner-and-garage"]);
    }
  });

  test("that was settled by another unit is one that should not be in use", () => {
    expect(kinds(claim({ stage: "settled", isReplaced: true, isSameCustomer: true }))).toEqual(["replaced-already"]);
  });

  test("that has ended otherwise was complained of before; merged and withdrawn ones say nothing", () => {
    const ended = CLAIM_STAGES.filter((stage) => stage !== "draft" && !QUEUE_STAGES.some((open) => open === stage));
    expect(ended.filter((stage) => kinds(claim({ stage })).length === 0).sort()).toEqual(["merged", "withdrawn"]);
    expect(kinds(claim({ stage: "decided" }))).toEqual(["complained-of-before"]);
  });

  test("and a unit that was sent to somebody else is noticed by itself", () => {
    const shippedOn = new Date("2026-03-01");
    expect(noticesOf([], { shippedOn, isToThisCustomer: false })).toEqual([{ kind: "sent-to-another", shippedOn }]);
    expect(noticesOf([], { shippedOn, isToThisCustomer: true })).toEqual([]);
    expect(noticesOf([], null)).toEqual([]);
  });
});

test("In a list, the newest other claim is named and the rest counted", () => {
  expect([[], ["B2C-1930-TRM"], ["B2C-1930-TRM", "K7A-4821-HXQ", "Q4T-1111-AAA"]].map(sameSerialInWords)).toEqual([null, "same serial as B2C-1930-TRM", "same serial as B2C-1930-TRM and 2 more"]);
});
