import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { actInWords } from "@/app/queue/[claimId]/story-words";
import { CLAIM_EVENTS } from "@/lib/domain/claims/lifecycle";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";

const operations = path.resolve(import.meta.dirname, "../../../lib/operations");
/** What operations write into the story of a claim, beside the events that move it. A refusal is no part of it. */
const written = readdirSync(operations).flatMap((file) =>
  [...readFileSync(path.join(operations, file), "utf8").matchAll(/appendAudit\(.*?\);/gs)].flatMap(([call]) => (call.includes("claimId") ? [/action: "(\w+)"/.exec(call)?.[1] ?? call] : [])),
);
const actions = [...new Set([...CLAIM_EVENTS, ...written])].filter((action) => action !== "refused");

const said = (action: string, detail: Readonly<Record<string, unknown>> = {}) =>
  actInWords({ actor: "Iris Velthuis", action, detail }, { edition: edition1, people: [{ id: "1", name: "Iris Velthuis" }, { id: "2", name: "Jonah Reed" }] });
const MONEY = { remedy: "refund", amountMinor: 12_950, currency: "EUR" };

describe("the story of a claim", () => {
  test("is read from every operation that adds to it", () => {
    expect(actions).toEqual(expect.arrayContaining(["settle", "book_settlement", "inspect_late", "hand_over", "correct_serial"]));
  });

  test.each(actions)("has words for %s", (action) => {
    expect(said(action, MONEY)).not.toBe(action.replaceAll("_", " "));
  });

  test("tells the amount that was booked or reversed", () => {
    expect(said("book_settlement", MONEY)).toBe("booked €129.50: refund");
    expect(said("book_settlement", { ...MONEY, kind: "core_held" })).toBe("booked €129.50: deposit held for the old part");
    expect(said("reverse_settlement", { ...MONEY, amountMinor: -12_950 })).toBe("reversed the booking of €129.50: refund");
  });

  test("tells who took the claim, and to whom it was given", () => {
    expect(said("hand_over", { to: "1" })).toBe("took it");
    expect(said("hand_over", { to: "2" })).toBe("gave it to Jonah Reed");
    expect(said("hand_over", { to: null })).toBe("put it back for anybody");
  });
});
