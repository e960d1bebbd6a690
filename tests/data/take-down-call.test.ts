import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { purgeExpired } from "@/lib/data/purge";
import { fileCall, loadCall, loadOpenCalls, saveCall, startCall } from "@/lib/operations/take-down-call";
import { aStaffActor } from "../builders/a-person";
import { aDraft, OWNER_ANSWERS } from "../builders/intake";

let support: StaffActor;
beforeAll(async () => {
  support = await aStaffActor("support");
});

async function aCall(number = ""): Promise<string> {
  const started = await startCall(support, { number, language: "en", filingKey: randomUUID() });
  if (!started.ok) throw new Error(started.reason);
  return started.claimId;
}

/** The answers of the intake as the page of a call posts them. */
const typed = (more: Readonly<Record<string, string>> = {}): Record<string, string> =>
  Object.fromEntries([["who.who", "owner"], ...OWNER_ANSWERS.flatMap(([screen, values]) => [[`asked:${screen}`, "yes"], ...Object.entries(values).map(([name, value]) => [`${screen}.${name}`, value])]), ...Object.entries(more)]);
const claimRow = (id: string) => database().claim.findUniqueOrThrow({ where: { id } });

describe("a complaint taken down for a caller", () => {
  test("is kept as typed, asks what is worth asking, and is filed once as the customer's own word", async () => {
    const claimId = await aCall();
    const first = await loadCall(support, claimId);
    expect(first.ok && first.sections.map(({ screen }) => screen)).toEqual(expect.arrayContaining(["who", "purchase", "oil", "contact"]));
    // What has been told decides what else is asked: kept, the page shows more.
    expect(await saveCall(support, claimId, typed(), false)).toEqual({ ok: true });
    expect(await saveCall(support, claimId, typed(), false)).toEqual({ ok: true });
    const second = await loadCall(support, claimId);
    expect(second).toMatchObject({ ok: true, isReady: true, values: { "drain.F12": "present", "contact.name": "Ada \u00d6rnek \ud83d\ude00" } });

    const [one, other] = await Promise.all([fileCall(support, claimId, typed()), fileCall(support, claimId, typed())]);
    expect([one, other].filter(({ ok }) => ok).length).toBeGreaterThanOrEqual(1);
    expect(await fileCall(support, claimId, typed())).toEqual({ ok: true });
    expect(await claimRow(claimId)).toMatchObject({ stage: "filed", filedBy: "customer", takenDownById: support.personId, contactEmail: "ada@example.com" });
    expect(await database().finding.count({ where: { claimId, observer: { not: "customer" } } })).toBe(0);
    expect(await database().ranking.count({ where: { claimId } })).toBe(1);
    expect(await database().auditEntry.findMany({ where: { claimId, action: "file" } })).toMatchObject([{ actorKind: "staff", personId: support.personId }]);
    expect(await database().outgoingMail.count({ where: { claimId } })).toBe(1);
    expect(await loadCall(support, claimId)).toEqual({ ok: false, reason: "already-filed" });
  });

  test("needs no e-mail address where there is a telephone number, and then no mail goes out", async () => {
    const claimId = await aCall();
    await saveCall(support, claimId, typed(), false);
    expect(await fileCall(support, claimId, typed({ "contact.email": "", "contact.phone": "" }))).toMatchObject({ reason: "refused", messages: { "contact.phone": "Write a telephone number, or an e-mail address" } });
    expect(await fileCall(support, claimId, typed({ "contact.email": "", "contact.phone": "+49 171 445566" }))).toEqual({ ok: true });
    expect(await claimRow(claimId)).toMatchObject({ stage: "filed", contactEmail: null, contactPhone: "+49 171 445566" });
    expect(await database().outgoingMail.count({ where: { claimId } })).toBe(0);
  });

  test("says which answers are missing when it is filed too soon, and keeps the sound ones", async () => {
    const claimId = await aCall();
    const filed = await fileCall(support, claimId, { "who.who": "owner", "asked:oil": "yes", "oil.place": "turbine" });
    expect(filed).toMatchObject({ ok: false, reason: "refused", messages: { "oil.elsewhere": expect.any(String) } });
    expect(await loadCall(support, claimId)).toMatchObject({ values: { "who.who": "owner" } });
  });

  test("is filled in from an order or a serial, and refuses a number that nobody knows", async () => {
    const order = await database().order.create({ data: { number: "CALL-1", customerEmail: "cy@example.com", customerName: "Cy Dorn", country: "DE", placedOn: new Date("2026-01-01") } });
    const model = await database().turboModel.create({ data: { code: "CALL", name: "Call", bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.45, drainBoreMm: 13, kits: { create: { code: "CALL-K", name: "Call kit", revisions: { create: { revision: "A", introducedOn: new Date("2025-01-01") } } } } }, include: { kits: { include: { revisions: true } } } });
    const unit = await database().unit.create({ data: { serial: "CALL-77", batch: "B1", turboModelId: model.id } });
    await database().shipment.create({ data: { orderId: order.id, kitRevisionId: model.kits[0]?.revisions[0]?.id ?? "", unitId: unit.id, shippedOn: new Date("2026-01-02") } });
    const byOrder = await loadCall(support, await aCall("call-1"));
    expect(byOrder).toMatchObject({ values: { "order.number": "CALL-1", "contact.name": "Cy Dorn", "contact.email": "cy@example.com" } });
    const bySerial = await aCall("call 77");
    expect(await claimRow(bySerial)).toMatchObject({ unitId: unit.id });
    expect(await startCall(support, { number: "NO-SUCH", language: "en", filingKey: randomUUID() })).toEqual({ ok: false, reason: "no-such-purchase" });
  });

  test("begins one draft when it is posted twice, which goes when nobody has filed it for two weeks", async () => {
    const filingKey = randomUUID();
    const both = await Promise.all([1, 2].map(() => startCall(support, { number: "", language: "de", filingKey })));
    expect(both[0]).toEqual(both[1]);
    const claimId = both[0]?.ok ? both[0].claimId : "";
    const listed = await loadOpenCalls(support);
    expect(listed.ok && listed.calls.some(({ id }) => id === claimId)).toBe(true);
    await purgeExpired(new Date(Date.now() + 13 * 86_400_000));
    expect(await database().claim.count({ where: { id: claimId } })).toBe(1);
    await purgeExpired(new Date(Date.now() + 15 * 86_400_000));
    expect(await database().claim.count({ where: { id: claimId } })).toBe(0);
  });

  test("never opens a customer's own draft", async () => {
    const { claimId } = await aDraft();
    expect(await loadCall(support, claimId)).toEqual({ ok: false, reason: "not-found" });
    expect(await saveCall(support, claimId, typed(), false)).toEqual({ ok: false, reason: "not-found" });
    expect(await fileCall(support, claimId, typed())).toEqual({ ok: false, reason: "not-found" });
  });
});
