import { describe, expect, test } from "vitest";
import { invitationSchema } from "@/lib/inputs/people";
import { readQueueFilter } from "@/lib/inputs/queue-filter";
import { causesFilterSchema, readFilter } from "@/lib/inputs/report-filter";
import { receiptSchema } from "@/lib/inputs/custody";
import { authorisationSchema } from "@/lib/inputs/returns";
import { bookingSchema, depositEndSchema, reversalSchema } from "@/lib/inputs/settlement";
import { appealSchema, sendBackSchema, verdictSchema } from "@/lib/inputs/verdict";

const ID = "7d8a1f3e-5b0c-4c1d-9e2f-0a1b2c3d4e5f";
const VERDICT = { primaryCause: "C01", origin: "", basis: "photo", remedy: "advice", version: "0", rankingId: "" };

/** Every text that staff type, with what the schema makes of it or its first message. */
const STAFF_TEXTS: readonly (readonly [name: string, isOneLine: boolean, longest: number, read: (typed: string) => { success: boolean; data?: unknown; error?: { issues: readonly { message: string }[] } }, field: string])[] = [
  ["name of a person", true, 100, (name) => invitationSchema.safeParse({ name, email: "ada@example.com", role: "support" }), "name"],
  ["serial number seen", true, 60, (serialSeen) => receiptSchema.safeParse({ returnId: ID, serialSeen }), "serialSeen"],
  ["note to a return", false, 4000, (note) => authorisationSchema.safeParse({ version: "0", note }), "note"],
  ["note to a booking", false, 4000, (note) => bookingSchema("EUR").safeParse({ version: "0", bookingKey: ID, kind: "refund", amount: "10", note }), "note"],
  ["note to a reversal", false, 4000, (note) => reversalSchema.safeParse({ bookingKey: ID, settlementId: ID, note }), "note"],
  ["note to a deposit", false, 4000, (note) => depositEndSchema.safeParse({ bookingKey: ID, depositId: ID, end: "core_kept", note }), "note"],
  ["reason to send a verdict back", false, 4000, (note) => sendBackSchema.safeParse({ note }), "note"],
  ["reason of a verdict", false, 4000, (reason) => verdictSchema.safeParse({ ...VERDICT, reason }), "reason"],
  ["reason of an appeal", false, 4000, (reason) => appealSchema.safeParse({ reason }), "reason"],
];

describe.each(STAFF_TEXTS)("the %s", (_name, isOneLine, longest, read, field) => {
  const kept = (typed: string) => {
    const { data, error } = read(typed);
    return error ? error.issues[0]?.message : (data as Record<string, unknown>)[field];
  };

  test("loses control signs and the space around it, and keeps every other sign", () => {
    expect(kept(" A\u0000da\u001b \u{1F600} \u00d6\u202e ")).toBe("Ada \u{1F600} \u00d6\u202e");
  });

  test("keeps line breaks where it has lines", () => {
    expect(kept("one\r\n\ttwo")).toBe(isOneLine ? "one  two" : "one\n\ttwo");
  });

  test("is refused when it is too long, and says how long it may be", () => {
    expect(kept("\u{1F600}".repeat(longest / 2))).toBe("\u{1F600}".repeat(longest / 2));
    expect(kept("a".repeat(10_000))).toContain(`${longest.toLocaleString("en")} characters`);
  });
});

test("a text that must be given is not given by control signs", () => {
  expect(appealSchema.safeParse({ reason: "\u0000 \u0007" }).error?.issues[0]?.message).toMatch(/^Write/);
});

describe("an address", () => {
  test("of the queue with control signs or 10,000 of them is never an error", () => {
    expect(readQueueFilter({ kit: "\u0000" })).toEqual(readQueueFilter({}));
    expect(readQueueFilter({ kit: ["\u0000A1"] })).toMatchObject({ kit: "A1" });
    expect(readQueueFilter({ kit: "\u{1F600}" })).toMatchObject({ kit: "\u{1F600}" });
    expect(readQueueFilter({ kit: "a".repeat(10_000) })).toEqual(readQueueFilter({}));
  });

  test("of a report loses control signs before anything is looked up", () => {
    const usual = { from: "2026-01", to: "2026-03" };
    expect(readFilter(causesFilterSchema, { kit: "\u0000" }, usual)).toEqual({ ok: true, filter: { ...usual, by: "kit" } });
    expect(readFilter(causesFilterSchema, { kit: "A\u00001" }, usual)).toMatchObject({ filter: { kit: "A1" } });
    expect(readFilter(causesFilterSchema, { kit: "a".repeat(10_000) }, usual)).toMatchObject({ ok: false, errors: { kit: "There is no such kit." } });
  });
});
