import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { connectionPool, database } from "@/lib/data/client";
import { addMonths } from "@/lib/domain/warranty/calendar-day";
import { termsFormSchema, termsFromForm } from "@/lib/inputs/warranty";
import { loadWarranty } from "@/lib/operations/load-warranty";
import { draftTerms, dropTermsDraft, keepTermsDraft, loadWarrantyTerms, putDraftInForce } from "@/lib/operations/warranty-terms";
import { aStaffActor } from "../builders/a-person";
import { aFiledClaim } from "../builders/intake";

let admin: StaffActor;
beforeAll(async () => {
  admin = await aStaffActor("admin");
});

const TYPED = { validFrom: "2026-01-01", change: "The first terms.", from: "shipment", months: "24", distanceKm: "60,000", hours: "", fitter: "anyone", "kit-0-kit": "", "kit-0-months": "", "kit-0-distanceKm": "", "kit-0-hours": "", "kit-0-fitter": "", "country-0-country": "de", "country-0-note": "Ask the adviser." };
function read(changes: Record<string, string> = {}) {
  const form = new FormData();
  for (const [name, value] of Object.entries({ ...TYPED, ...changes })) form.set(name, value);
  form.append("lostBy", "starved_of_oil");
  return termsFormSchema.safeParse(termsFromForm(form));
}
const draft = async () => {
  await draftTerms(admin);
  const shown = await loadWarrantyTerms(admin);
  if (!shown.ok || !shown.draft) throw new Error("a draft was begun");
  return shown.draft;
};
const kept = async (changes: Record<string, string> = {}) => {
  const { number, updatedAt } = await draft();
  const typed = read(changes);
  if (!typed.success) throw typed.error;
  const done = await keepTermsDraft(admin, number, updatedAt, typed.data);
  if (!done.ok) throw new Error(done.reason);
  return { number, seen: done.seen };
};

test("months are added as PostgreSQL adds them, on every day of nine years and of a century's turn", async () => {
  const { rows } = await connectionPool().query<{ day: string; months: number; later: string }>(`
    SELECT to_char(d, 'YYYY-MM-DD') AS day, m AS months, to_char(d + make_interval(months => m), 'YYYY-MM-DD') AS later
    FROM (SELECT generate_series('2023-01-01'::timestamp, '2031-12-31', '1 day') AS d UNION ALL SELECT generate_series('2099-12-01'::timestamp, '2100-03-31', '1 day')) AS days,
      unnest(ARRAY[1, 6, 12, 13, 24, 36]) AS m`);
  expect(rows.length).toBeGreaterThan(19_000);
  expect(rows.filter(({ day, months, later }) => addMonths(day, months) !== later)).toEqual([]);
});

describe("the form of a draft", () => {
  test("reads what was typed, leaves free rows out and marks of thousands aside", () => {
    expect(read()).toMatchObject({ success: true, data: { document: { period: { months: 24, distanceKm: 60_000, hours: null }, lostBy: ["starved_of_oil"], kits: [], countries: [{ country: "DE", note: "Ask the adviser." }] } } });
  });

  test.each([
    [{ months: "" }, "months"],
    [{ months: "0" }, "months"],
    [{ distanceKm: "far" }, "distanceKm"],
    [{ validFrom: "2026-02-30" }, "validFrom"],
    [{ change: " " }, "change"],
    [{ "country-0-country": "" }, "countries"],
    [{ "country-1-country": "DE", "country-1-note": "Twice." }, "countries"],
    [{ "kit-0-kit": "A", "kit-1-kit": "A", "kit-1-months": "", "kit-1-distanceKm": "", "kit-1-hours": "", "kit-1-fitter": "" }, "kits"],
  ])("refuses %j", (changes, field) => {
    const typed = read(changes);
    expect(typed.success ? null : typed.error.issues[0]?.path[0]).toBe(field);
  });
});

describe("warranty terms", () => {
  test("go from draft into force, once of two at once; earlier ones stay and the next begins later", async () => {
    const first = await kept();
    expect(await keepTermsDraft(admin, first.number, new Date(0), { ...(read().data ?? (null as never)) })).toEqual({ ok: false, reason: "changed-meanwhile" });
    const both = await Promise.all([0, 1].map(() => putDraftInForce(admin, first.number, first.seen)));
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
    const early = await kept({ validFrom: "2025-12-31", change: "Too early" });
    expect(await putDraftInForce(admin, early.number, early.seen, new Date("2026-03-01T12:00:00Z"))).toEqual({ ok: false, reason: "begins-too-early", earliest: "2026-03-01" });
    const next = await kept({ validFrom: "2026-04-01", change: "Three years", months: "36" });
    expect(next.number).toBe(early.number);
    expect(await putDraftInForce(admin, next.number, next.seen, new Date("2026-03-01T12:00:00Z"))).toEqual({ ok: true });
    const shown = await loadWarrantyTerms(admin);
    expect(shown.ok && shown.inForce.map(({ validFrom, document }) => [validFrom, document.period.months])).toEqual([["2026-04-01", 36], ["2026-01-01", 24]]);
  });

  test("name no kit that is not sold, and a draft is thrown away", async () => {
    const { number, updatedAt } = await draft();
    const typed = read({ "kit-0-kit": "NO-SUCH" });
    if (!typed.success) throw typed.error;
    expect(await keepTermsDraft(admin, number, updatedAt, typed.data)).toEqual({ ok: false, reason: "unknown-kit", kit: "NO-SUCH" });
    expect(await dropTermsDraft(admin, number)).toEqual({ ok: true });
    expect(await dropTermsDraft(admin, number)).toEqual({ ok: false, reason: "changed-meanwhile" });
  });

  test("are held against a claim by what is known of it, and change nothing", async () => {
    const { claimId } = await aFiledClaim();
    const before = await database().claim.findUniqueOrThrow({ where: { id: claimId } });
    expect(await loadWarranty(admin, claimId)).toMatchObject({ ok: true, outcome: { standing: "cannot_tell", each: [{ name: "Terms" }] } });
    expect(await database().claim.findUniqueOrThrow({ where: { id: claimId } })).toEqual(before);
  });
});
