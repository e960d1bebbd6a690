import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { countChargeable, listChargeable } from "@/lib/data/chargebacks";
import { lineTotal } from "@/lib/domain/claims/chargeback";
import { beginChargeback } from "@/lib/operations/begin-chargeback";
import { bookSupplierAnswers, closeChargeback, dropChargeback, sendChargeback, takeOutLine } from "@/lib/operations/change-chargeback";
import { exportChargeback } from "@/lib/operations/export-chargeback";
import { keepInCatalogue } from "@/lib/operations/keep-in-catalogue";
import { loadTurboModel } from "@/lib/operations/load-catalogue";
import { loadChargeback, loadChargebacks } from "@/lib/operations/load-chargebacks";
import { aDecidedClaim } from "@/tests/builders/a-claim";
import { aStaffActor } from "@/tests/builders/a-person";

let product: StaffActor;
beforeAll(async () => {
  product = await aStaffActor("product");
});

/** A supplier with verdicts against units of one batch, each with a replacement of so many cents booked. */
async function aBatch(amounts: readonly number[]) {
  const mark = randomUUID().slice(0, 8).toUpperCase();
  const batch = `B-${mark}`;
  const supplier = await database().supplier.create({ data: { code: mark, name: `Works ${mark}`, email: "works@example.com" } });
  const model = await database().turboModel.create({ data: { code: mark, name: mark, bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.15, drainBoreMm: 13, supplierId: supplier.id } });
  const { currency } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
  for (const [index, amountMinor] of amounts.entries()) {
    const claim = await aDecidedClaim(product.personId, "replacement");
    const unit = await database().unit.create({ data: { serial: `${mark}-${index}`, batch, turboModelId: model.id } });
    await database().claim.update({ where: { id: claim.id }, data: { unitId: unit.id, stage: "settled", settledAt: new Date() } });
    await database().settlement.create({ data: { claimId: claim.id, kind: "replacement", amountMinor, sellerMinor: amountMinor, currency, bookedById: product.personId } });
  }
  return { supplierId: supplier.id, batch };
}

async function aDraft(amounts: readonly number[]) {
  const { supplierId, batch } = await aBatch(amounts);
  const begun = await beginChargeback(product, { supplierId, verdicts: [], batches: [batch] });
  if (!begun.ok) throw new Error(begun.reason);
  return begun.number;
}

async function sheetOf(number: number) {
  const loaded = await loadChargeback(product, number);
  if (!loaded.ok) throw new Error(loaded.reason);
  return loaded.chargeback;
}

const SENT = { version: 0, days: 30, note: "" };

describe("a chargeback", () => {
  test("takes in a batch with what is booked, and charges each verdict once, also of two at once", async () => {
    const { supplierId, batch } = await aBatch([50_000, 30_000]);
    const input = { supplierId, verdicts: [], batches: [batch] };
    const both = await Promise.all([beginChargeback(product, input), beginChargeback(product, input)]);
    expect(both.filter(({ ok }) => ok)).toMatchObject([{ lines: 2 }]);
    expect(await database().chargebackLine.count({ where: { batch } })).toBe(2);
    const rest = await loadChargebacks(product);
    expect(rest.ok && rest.open.some(({ id }) => id === supplierId)).toBe(false);
  });

  test("can be begun once the catalogue says who makes the model, which is asked for until then", async () => {
    const { supplierId, batch } = await aBatch([50_000, 30_000]);
    const { id: model } = await database().turboModel.update({ where: { code: batch.slice(2) }, data: { supplierId: null } });
    const input = { supplierId, verdicts: [], batches: [batch] };
    const before = await loadChargebacks(product);
    expect(before.ok && before.unmade.find(({ id }) => id === model)).toMatchObject({ kind: "turbo-models", verdicts: 2 });
    expect(await beginChargeback(product, input)).toEqual({ ok: false, reason: "nothing-to-charge" });
    const admin = await aStaffActor("admin");
    const loaded = await loadTurboModel(admin, model);
    if (!loaded.ok || !loaded.entry) throw new Error("should be there");
    expect(await keepInCatalogue(admin, "turbo-models", model, { ...loaded.entry, supplierId }, loaded.seen)).toMatchObject({ ok: true });
    const after = await loadChargebacks(product);
    expect(after.ok && after.unmade.some(({ id }) => id === model)).toBe(false);
    expect(await beginChargeback(product, input)).toMatchObject({ ok: true, lines: 2 });
  });

  test("is offered the oldest verdicts where there are more than are shown, and they are counted", async () => {
    const { supplierId } = await aBatch([50_000, 30_000, 20_000]);
    const { currency } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    const all = await listChargeable(supplierId, currency, { most: 10 });
    expect(all.map(({ remedyMinor }) => remedyMinor)).toEqual([50_000, 30_000, 20_000]);
    expect(await listChargeable(supplierId, currency, { most: 2 })).toEqual(all.slice(0, 2));
    expect(await countChargeable(supplierId)).toBe(3);
  });

  test("of another supplier's verdicts is not begun", async () => {
    const { batch } = await aBatch([50_000]);
    const other = await aBatch([1]);
    expect(await beginChargeback(product, { supplierId: other.supplierId, verdicts: [], batches: [batch] })).toEqual({ ok: false, reason: "nothing-to-charge" });
  });

  test("sets verdicts free again that are taken out, or whose draft is dropped", async () => {
    const number = await aDraft([50_000, 30_000]);
    const { lines, supplierId } = await sheetOf(number);
    expect(await takeOutLine(product, { number, version: 0, lineId: lines[0]?.id ?? "" })).toEqual({ ok: true, state: "draft" });
    expect(await dropChargeback(product, { number, version: 0 })).toEqual({ ok: false, reason: "changed-meanwhile" });
    expect(await dropChargeback(product, { number, version: 1 })).toEqual({ ok: true, state: "draft" });
    const rest = await loadChargebacks(product);
    expect(rest.ok && rest.open.find(({ id }) => id === supplierId)?.verdicts).toHaveLength(2);
  });

  test("counts anew before it is sent, is sent once of two at once, and changes no line after that", async () => {
    const number = await aDraft([50_000]);
    const [line] = (await sheetOf(number)).lines;
    const { currency, claimId } = await database().settlement.findFirstOrThrow({ where: { claimId: line?.verdict?.claimId ?? "" } });
    await database().settlement.create({ data: { claimId, kind: "carriage_back", amountMinor: 1_850, sellerMinor: 1_850, currency, bookedById: product.personId } });
    expect(await sendChargeback(product, { number, ...SENT })).toEqual({ ok: false, reason: "amounts-changed" });
    expect((await sheetOf(number)).totals).toMatchObject({ askedMinor: 51_850, carriageMinor: 1_850 });
    const both = await Promise.all([sendChargeback(product, { number, ...SENT, version: 1 }), sendChargeback(product, { number, ...SENT, version: 1 })]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await takeOutLine(product, { number, version: 2, lineId: line?.id ?? "" })).toEqual({ ok: false, reason: "not-legal-here" });
  });

  test("is not begun of what is not settled yet, and not sent with a verdict that was taken back", async () => {
    const { supplierId, batch } = await aBatch([50_000, 30_000]);
    const early = await database().claim.findFirstOrThrow({ where: { unit: { batch } } });
    await database().claim.update({ where: { id: early.id }, data: { stage: "decided", settledAt: null } });
    const begun = await beginChargeback(product, { supplierId, verdicts: [], batches: [batch] });
    if (!begun.ok) throw new Error(begun.reason);
    const [line, ...rest] = (await sheetOf(begun.number)).lines;
    expect([line?.verdict?.claimId === early.id, rest]).toEqual([false, []]);
    await database().verdict.update({ where: { id: line?.verdictId ?? "" }, data: { supersededAt: new Date() } });
    expect(await sendChargeback(product, { number: begun.number, ...SENT })).toEqual({ ok: false, reason: "verdict-gone" });
  });

  test("books answers line by line, keeps the earlier ones, adds up and is closed once all is answered", async () => {
    const number = await aDraft([50_000, 30_000]);
    await sendChargeback(product, { number, ...SENT });
    const [first, second] = (await sheetOf(number)).lines;
    if (!first || !second) throw new Error("two lines were charged");
    const answer = (version: number, amounts: Record<string, number | null>, rest?: "whole" | "nothing") => bookSupplierAnswers(product, { number, version, amounts, rest, note: "" });
    expect(await answer(1, { [first.id]: lineTotal(first) + 1 })).toMatchObject({ ok: false, reason: "more-than-asked" });
    expect(await answer(1, {})).toEqual({ ok: false, reason: "no-answer" });
    expect(await answer(1, { [first.id]: 0 })).toEqual({ ok: true, state: "sent" });
    expect(await closeChargeback(product, { number, version: 2 })).toEqual({ ok: false, reason: "not-legal-here" });
    expect(await answer(2, { [first.id]: 20_000 }, "whole")).toEqual({ ok: true, state: "accepted_in_part" });
    const { totals } = await sheetOf(number);
    expect(totals).toMatchObject({ askedMinor: 80_000, acceptedMinor: 20_000 + lineTotal(second), openMinor: 0 });
    expect(await database().chargebackAnswer.count({ where: { lineId: first.id } })).toBe(2);
    expect(await closeChargeback(product, { number, version: 3 })).toEqual({ ok: true, state: "closed" });
    expect(await answer(4, { [first.id]: 1 })).toEqual({ ok: false, reason: "not-legal-here" });
  });

  test("goes out as a table without a word of a customer", async () => {
    const number = await aDraft([50_000]);
    const exported = await exportChargeback(product, number);
    expect(exported).toMatchObject({ ok: true, table: { rows: [{ number, line: 1, asked: 500, accepted: null }] } });
    const [line] = (await sheetOf(number)).lines;
    const said = JSON.stringify(exported);
    for (const secret of ["Ada Brink", "ada@example.com", line?.verdict?.claim.reference ?? "no reference"]) expect(said).not.toContain(secret);
  });
});
