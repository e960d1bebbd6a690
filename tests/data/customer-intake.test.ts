import { randomUUID } from "node:crypto";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import { intakeCustomerByKey } from "@/lib/access/customer";
import { DRAFT_DAYS } from "@/lib/domain/claims/key-days";
import { database } from "@/lib/data/client";
import { findDraft } from "@/lib/data/drafts";
import { cautionInWords } from "@/lib/domain/diagnosis/cautions";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import type { Screen } from "@/lib/domain/intake/answers";
import { findingsFromAnswers } from "@/lib/domain/intake/findings-from-answers";
import { screensToAsk } from "@/lib/domain/intake/intake-path";
import { NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { cautionsOf } from "@/lib/domain/intake/screens";
import { CONFIRMED_AS_UNUSUAL } from "@/lib/domain/intake/unusual-number";
import { getObject } from "@/lib/files/store";
import { sayIn } from "@/lib/messages/words";
import { attachPhoto } from "@/lib/operations/attach-photo";
import { fileClaim } from "@/lib/operations/file-claim";
import { loadBasis } from "@/lib/operations/intake-basis";
import { loadReview } from "@/lib/operations/load-review";
import { loadScreen } from "@/lib/operations/load-screen";
import { purgeExpired } from "@/lib/data/purge";
import { resumeDraft } from "@/lib/operations/resume-draft";
import { saveAnswer } from "@/lib/operations/save-answer";
import { sendDraftLink } from "@/lib/operations/send-draft-link";
import { startDraft } from "@/lib/operations/start-draft";
import { removeDiscarded } from "../builders/discarded-objects";
import { aDraft, aFiledClaim, aForm, answerAll, OWNER_ANSWERS } from "../builders/intake";

const ids = { turbo: randomUUID(), kit: randomUUID(), revisionA: randomUUID(), revisionB: randomUUID(), vehicle: randomUUID(), unit: randomUUID(), shipment: randomUUID(), second: randomUUID() };

beforeAll(async () => {
  const db = database();
  await db.turboModel.create({ data: { id: ids.turbo, code: "VT34", name: "VT-34", bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.45, drainBoreMm: 13 } });
  await db.kit.create({ data: { id: ids.kit, code: "KH-110", name: "Carrow kit", turboModelId: ids.turbo } });
  await db.kitRevision.createMany({
    data: [
      { id: ids.revisionA, kitId: ids.kit, revision: "A", introducedOn: new Date("2024-01-01") },
      { id: ids.revisionB, kitId: ids.kit, revision: "B", introducedOn: new Date("2026-06-01") },
    ],
  });
  await db.vehicle.create({ data: { id: ids.vehicle, make: "Halvorn", model: "Carrow", engine: "2.0 D", fuel: "diesel", yearFrom: 2009 } });
  await db.fitment.create({ data: { kitId: ids.kit, vehicleId: ids.vehicle } });
  await db.unit.create({ data: { id: ids.unit, serial: "VT34-2601-0001", batch: "2601", turboModelId: ids.turbo } });
  const order = await db.order.create({ data: { number: "BT-1", customerEmail: "ada@example.com", customerName: "Ada", country: "DE", placedOn: new Date("2026-01-01") } });
  await db.shipment.create({ data: { id: ids.shipment, orderId: order.id, kitRevisionId: ids.revisionA, unitId: ids.unit, vehicleId: ids.vehicle, shippedOn: new Date("2026-01-02") } });
  const two = await db.order.create({ data: { number: "BT-2", customerEmail: "ada@example.com", customerName: "Ada", country: "DE", placedOn: new Date("2026-01-01") } });
  await db.shipment.createMany({
    data: [
      { id: ids.second, orderId: two.id, kitRevisionId: ids.revisionA, shippedOn: new Date("2026-01-02") },
      { orderId: two.id, kitRevisionId: ids.revisionB, shippedOn: new Date("2026-07-02") },
    ],
  });
});

const save = (actor: Awaited<ReturnType<typeof aDraft>>, screen: Parameters<typeof saveAnswer>[1], values: Record<string, string>, caller: string = randomUUID()) => saveAnswer(actor, screen, aForm(values), caller);

describe("finding the purchase", () => {
  test("an order needs the address it was placed with", async () => {
    const actor = await aDraft();
    await save(actor, "purchase", { by: "order" });
    expect(await save(actor, "order", { number: "BT-1", email: "eve@example.com" })).toEqual({ ok: false, reason: "no-such-order" });
    expect(await save(actor, "order", { number: "BT-9", email: "ada@example.com" })).toEqual({ ok: false, reason: "no-such-order" });
    expect(await save(actor, "order", { number: " bt-1 ", email: "ADA@example.com" })).toMatchObject({ ok: true, next: "oil" });
    expect(await findDraft(actor.claimId)).toMatchObject({ shipmentId: ids.shipment, unitId: ids.unit, kitRevisionId: ids.revisionA, purchase: { vehicleId: ids.vehicle, fuel: "diesel", staging: "single" } });
  });

  test("with several parts on an order the customer says which, and only of that order", async () => {
    const actor = await aDraft();
    await save(actor, "purchase", { by: "order" });
    expect(await save(actor, "order", { number: "BT-2", email: "ada@example.com" })).toMatchObject({ ok: true, next: "item" });
    expect(await save(actor, "item", { shipment: ids.shipment })).toMatchObject({ ok: false, reason: "refused" });
    expect(await save(actor, "item", { shipment: ids.second })).toMatchObject({ ok: true, next: "vehicle" });
    expect(await findDraft(actor.claimId)).toMatchObject({ shipmentId: ids.second, kitRevisionId: ids.revisionA });
    expect(await save(actor, "item", { shipment: "unknown" })).toMatchObject({ ok: true, next: "vehicle" });
    expect(await findDraft(actor.claimId)).toMatchObject({ shipmentId: null, kitRevisionId: null });
  });

  test("a serial tells the kit, and not who bought it or for what vehicle", async () => {
    const actor = await aDraft();
    await save(actor, "purchase", { by: "serial" });
    expect(await save(actor, "serial", { serial: "VT34-0000-0000" })).toEqual({ ok: false, reason: "no-such-serial" });
    expect(await save(actor, "serial", { serial: "vt34-2601-0001" })).toMatchObject({ ok: true, next: "vehicle" });
    expect(await findDraft(actor.claimId)).toMatchObject({ unitId: ids.unit, purchase: { kitId: ids.kit, vehicleId: null } });
  });

  test("a serial is found without its hyphens, unless two are alike but for them", async () => {
    const actor = await aDraft();
    await save(actor, "purchase", { by: "serial" });
    for (const serial of ["VT34 2601 0001", "vt3426010001", "VT34_2601.0001"]) expect(await save(actor, "serial", { serial }), serial).toMatchObject({ ok: true });
    expect(await save(actor, "serial", { serial: "-" })).toEqual({ ok: false, reason: "no-such-serial" });

    const { turboModelId, batch } = await database().unit.findUniqueOrThrow({ where: { id: ids.unit } });
    await database().unit.create({ data: { serial: "VT34-260-10001", batch, turboModelId } });
    expect(await save(actor, "serial", { serial: "VT3426010001" })).toEqual({ ok: false, reason: "no-such-serial" });
    expect(await save(actor, "serial", { serial: "vt34-2601-0001" })).toMatchObject({ ok: true });
    await database().unit.delete({ where: { serial: "VT34-260-10001" } });
  });

  test("what is not found may be left, and the kit picked", async () => {
    const actor = await aDraft();
    await save(actor, "purchase", { by: "order" });
    expect(await save(actor, "order", { number: "BT-9", email: "ada@example.com", goesOnWithout: "yes" })).toMatchObject({ ok: true, next: "kit" });
    expect(await save(actor, "kit", { kit: ids.kit })).toMatchObject({ ok: true, next: "vehicle" });
    expect(await save(actor, "vehicle", { vehicle: randomUUID() })).toMatchObject({ ok: false, reason: "refused" });
    expect(await save(actor, "vehicle", { vehicle: ids.vehicle })).toMatchObject({ ok: true, next: "oil" });
  });

  test("look-ups are counted, whoever's draft it is", async () => {
    const caller = randomUUID();
    const actor = await aDraft();
    await save(actor, "purchase", { by: "serial" });
    const answers = [];
    for (let tries = 0; tries < 21; tries++) answers.push(await save(actor, "serial", { serial: `VT34-${tries}` }, caller));
    expect(answers.at(19)).toEqual({ ok: false, reason: "no-such-serial" });
    expect(answers.at(20)).toEqual({ ok: false, reason: "too-many-tries" });
  });

  test("another way to find it forgets what the first has told", async () => {
    const actor = await aDraft();
    await save(actor, "purchase", { by: "order" });
    await save(actor, "order", { number: "BT-1", email: "ada@example.com" });
    await save(actor, "purchase", { by: "kit" });
    expect(await findDraft(actor.claimId)).toMatchObject({ shipmentId: null, unitId: null, kitRevisionId: null, purchase: { vehicleId: null } });
  });
});

describe("a draft", () => {
  test("begins once, however often its form is posted", async () => {
    const filingKey = randomUUID();
    const begun = await Promise.all([1, 2, 3].map(() => startDraft(aForm({ who: "owner" }), filingKey, randomUUID(), "en")));
    const claims = await Promise.all(begun.map((one) => (one.ok ? intakeCustomerByKey(one.key) : null)));
    expect(new Set(claims.map((one) => one?.actor.claimId)).size).toBe(1);
    expect(await database().claim.count({ where: { filingKey } })).toBe(1);
  });

  test("is not begun with an unknown answer", async () => {
    expect(await startDraft(aForm({ who: "nobody" }), randomUUID(), randomUUID(), "en")).toMatchObject({ ok: false, reason: "refused" });
  });

  test("does not jump ahead, nor show a screen that is not asked", async () => {
    const actor = await aDraft();
    expect(await save(actor, "contact", { name: "Ada", email: "ada@example.com" })).toEqual({ ok: false, reason: "not-yet", goTo: "purchase" });
    expect(await loadScreen(actor, "first-start", "en")).toEqual({ ok: false, reason: "not-yet", goTo: "purchase" });
    expect(await loadScreen(null, "purchase", "en")).toEqual({ ok: false, reason: "not-yet", goTo: "who" });
    expect(await loadReview(actor)).toMatchObject({ ok: false, reason: "not-yet" });
  });

  test("warns at once when an answer says that the engine must stand still, and not when a later one lifts it", async () => {
    const actor = await aDraft();
    await answerAll(actor, OWNER_ANSWERS.filter(([screen]) => ["purchase", "kit", "vehicle"].includes(screen)));
    const stopOn = async (screen: Screen) => {
      const shown = await loadScreen(actor, screen, "en");
      return shown.ok ? shown.stop?.title : shown;
    };
    expect(await stopOn("oil")).toBeUndefined();
    await save(actor, "oil", { place: "compressor", elsewhere: "dry" });
    expect(await stopOn("amount")).toMatch(/oil in the intake/);
    await save(actor, "amount", { F04: "absent", F06: "absent" });
    expect(await stopOn("since")).toBeUndefined();
  });

  test("tells each caution in full where it is met first, and as a reminder from then on", async () => {
    const actor = await aDraft();
    await answerAll(actor);
    const screens = screensToAsk((await findDraft(actor.claimId)) ?? { answers: {}, purchase: NOTHING_KNOWN }, await loadBasis());
    const told: string[] = [];
    for (const screen of screens) {
      const shown = await loadScreen(actor, screen, "en");
      if (!shown.ok) throw new Error(screen);
      const met = cautionsOf(screen, (await loadBasis()).edition);
      expect(shown.described.cautions).toEqual(met.filter((code) => !told.includes(code)));
      expect(shown.read).toEqual(met.filter((code) => told.includes(code)).map((code) => cautionInWords(code, sayIn("en"))));
      told.push(...shown.described.cautions);
    }
    expect(new Set(told).size).toBe(told.length);
    expect(told).toContain("S2");
  });

  test("keeps what two windows answer", async () => {
    const actor = await aDraft();
    await answerAll(actor);
    await save(actor, "since", { F07: "later" });
    await save(actor, "drain", { F12: "absent" });
    expect((await findDraft(actor.claimId))?.answers).toMatchObject({ since: { F07: "later" }, drain: { F12: "absent" } });
  });

  test("goes on elsewhere with a mailed link, once", async () => {
    const actor = await aDraft();
    expect(await sendDraftLink(actor, aForm({ email: "ada" }), randomUUID())).toMatchObject({ ok: false, reason: "refused" });
    expect(await sendDraftLink(actor, aForm({ email: "ada@example.com" }), randomUUID())).toEqual({ ok: true });
    const mail = await database().outgoingMail.findFirstOrThrow({ where: { claimId: actor.claimId } });
    const key = new URL(mail.text.match(/http\S+/)?.[0] ?? "").searchParams.get("key") ?? "";
    const resumed = await Promise.all([resumeDraft(key), resumeDraft(key)]);
    expect(resumed.filter(({ ok }) => ok)).toHaveLength(1);
    const opened = resumed.find((one) => one.ok);
    expect(opened?.ok && (await intakeCustomerByKey(opened.key))?.actor.claimId).toBe(actor.claimId);
    expect(await resumeDraft("made up")).toEqual({ ok: false, reason: "link-spent" });
  });

  test("refuses bad input at the field and keeps the earlier answer", async () => {
    const actor = await aDraft();
    await answerAll(actor);
    const long = "\ud83d\ude00".repeat(5000);
    for (const [screen, values] of OWNER_ANSWERS) {
      const bad = Object.fromEntries(Object.keys(values).map((name) => [name, long]));
      const answered = await save(actor, screen, bad);
      expect(answered, screen).toMatchObject({ ok: false, reason: "refused" });
    }
    expect(await save(actor, "fitting", { fittedOn: "2999-01-01", fitter: "self" })).toMatchObject({ reason: "refused", messages: { fittedOn: expect.stringMatching(/future/) } });
    expect((await findDraft(actor.claimId))?.answers.contact?.email).toBe("ada@example.com");
  });
});

describe("a draft that has run out", () => {
  test("is removed with its pictures, and a filed claim stays", async () => {
    const [draft, filed] = [await aDraft(), await aFiledClaim()];
    const attached = await attachPhoto(draft, await sharp({ create: { width: 20, height: 20, channels: 3, background: "#888" } }).jpeg().toBuffer());
    expect(attached.ok).toBe(true);
    const { storageKey } = await database().photo.findFirstOrThrow({ where: { claimId: draft.claimId } });
    expect(await getObject(storageKey)).not.toBeNull();
    await purgeExpired(new Date(Date.now() + (DRAFT_DAYS + 1) * 86_400_000));
    expect(await database().claim.findUnique({ where: { id: draft.claimId } })).toBeNull();
    await removeDiscarded();
    expect(await getObject(storageKey)).toBeNull();
    expect(await database().claim.findUnique({ where: { id: filed.claimId } })).not.toBeNull();
  });
});

describe("filing", () => {
  test("keeps findings, purchase, fitter, ranking, receipt and audit line together", async () => {
    const actor = await aDraft();
    await answerAll(actor, [["purchase", { by: "order" }], ["order", { number: "BT-1", email: "ada@example.com" }], ...OWNER_ANSWERS.slice(3)]);
    const filed = await fileClaim(actor, randomUUID(), new Date("2026-11-25T15:00:00Z"));
    expect(filed).toMatchObject({ ok: true, reference: actor.reference, filedNow: true });
    const claim = await database().claim.findUniqueOrThrow({ where: { id: actor.claimId }, include: { findings: true, fitter: true, rankings: true, mails: true, auditEntries: true } });
    expect(claim).toMatchObject({ stage: "filed", filedBy: "customer", contactEmail: "ada@example.com", shipmentId: ids.shipment, vehicleId: ids.vehicle, kitRevisionId: ids.revisionA, serial: "VT34-2601-0001", orderNumber: "BT-1" });
    expect(claim.distanceKm).toBeCloseTo(1250.5 * 1.609344);
    expect(claim.fitter).toMatchObject({ name: "Garage at the bridge", place: "Brackenhalt" });
    expect(claim.promisedAt?.toISOString()).toBe("2026-11-26T14:00:00.000Z");
    expect(claim.leaderCause).toBe("C01");
    expect(claim.rankings).toHaveLength(1);
    expect(Object.fromEntries(claim.findings.map(({ code, answer }) => [code, answer]))).toMatchObject({ F01: "present", F02: "absent", F12: "present", F24: "intake", F37: "single" });
    expect(claim.mails.map(({ onceKey, toAddress }) => [onceKey, toAddress])).toEqual([[`filed:${claim.id}`, "ada@example.com"]]);
    expect(claim.auditEntries.map(({ action }) => action)).toEqual(["file"]);
  });

  test.each([
    ["a drain that lies level", { F13: "16", F53: "0", F14: "120", F52: "300", F54: "0" }, ["C01"]],
    ["a bore of 8 mm at a good slope", { F13: "8", F53: "30", F14: "200", F52: "12", "F52-unit": "in", F54: "2" }, ["C03", "C01"]],
  ])("lets physics read what a technician measured: %s", async (_what, drain, expected) => {
    const actor = await aDraft("technician");
    const answers = OWNER_ANSWERS.map(([screen, values]) => [screen, screen === "drain" ? { F12: "unknown" } : values] as const);
    await answerAll(actor, [
      ...answers.slice(0, -3),
      ["drain-size", drain],
      ["vent-hose", { F26: "19", F55: "600", "F55-unit": "mm" }],
      ["first-start", { F09: "unknown", F10: "unknown" }],
      ...answers.slice(-3),
    ]);
    expect(await fileClaim(actor, randomUUID())).toMatchObject({ ok: true });
    const claim = await database().claim.findUniqueOrThrow({ where: { id: actor.claimId }, include: { findings: true, rankings: true } });
    const measured = Object.fromEntries(claim.findings.map(({ code, measured }) => [code, measured]));
    expect(measured.F53).toBe(Number(drain.F53));
    expect(measured.F55).toBeCloseTo(0.6);
    const ranking = claim.rankings[0]?.result as unknown as Ranking;
    const order = ranking.outcome === "ranked" ? ranking.causes.map(({ code }) => code) : [];
    expect(order[0]).toBe(expected[0]);
    expect(order.filter((cause) => expected.includes(cause))).toEqual(expected);
  });

  test("a kit picked without an order is of the revision sold when it was fitted", async () => {
    const actor = await aDraft();
    await answerAll(actor, [["purchase", { by: "kit" }], ["kit", { kit: ids.kit }], ["vehicle", { vehicle: ids.vehicle }], ...OWNER_ANSWERS.slice(3)]);
    await fileClaim(actor, randomUUID());
    expect((await database().claim.findUniqueOrThrow({ where: { id: actor.claimId } })).kitRevisionId).toBe(ids.revisionA);
  });

  test("five posts at once make one claim, one receipt, one set of findings", async () => {
    const actor = await aDraft();
    await answerAll(actor);
    const filed = await Promise.all(Array.from({ length: 5 }, () => fileClaim(actor, randomUUID())));
    expect(filed.every((one) => one.ok && one.reference === actor.reference)).toBe(true);
    expect(filed.filter((one) => one.ok && one.filedNow)).toHaveLength(1);
    expect(await database().outgoingMail.count({ where: { claimId: actor.claimId } })).toBe(1);
    expect(await database().finding.count({ where: { claimId: actor.claimId, code: "F01" } })).toBe(1);
    expect(await database().ranking.count({ where: { claimId: actor.claimId } })).toBe(1);
    expect(await save(actor, "contact", { name: "Eve", email: "eve@example.com" })).toEqual({ ok: false, reason: "already-filed" });
  });

  test("is refused while a question is open, and names its screen", async () => {
    const actor = await aDraft();
    await answerAll(actor, OWNER_ANSWERS.slice(0, 6));
    expect(await fileClaim(actor, randomUUID())).toEqual({ ok: false, reason: "incomplete", screen: "drain" });
  });

  test("is refused when a kept answer no longer passes, such as one put there past the form", async () => {
    const actor = await aDraft();
    await answerAll(actor);
    const draft = await findDraft(actor.claimId);
    await database().claim.update({ where: { id: actor.claimId }, data: { answers: { ...draft?.answers, drain: { F12: "no such answer" } } } });
    expect(await fileClaim(actor, randomUUID())).toEqual({ ok: false, reason: "incomplete", screen: "drain" });
  });

  test("keeps a number that was confirmed as unusual, and asks about one that was not", async () => {
    const actor = await aDraft();
    await answerAll(actor);
    const draft = await findDraft(actor.claimId);
    const withBore = (values: Record<string, string>) => database().claim.update({ where: { id: actor.claimId }, data: { answers: { ...draft?.answers, who: { who: "technician" }, "drain-size": values } } });
    await withBore({});
    expect(await save(actor, "drain-size", { F13: "-12", "F13-confirmed": "-12 mm" })).toMatchObject({ ok: false, reason: "refused", messages: { F13: expect.stringMatching(/negative/) } });
    expect(await save(actor, "drain-size", { F13: "127" })).toMatchObject({ ok: false, reason: "refused", messages: { F13: expect.stringMatching(/unusual/) } });
    expect(await save(actor, "drain-size", { F13: "127", "F13-confirmed": "127 mm" })).toMatchObject({ ok: true });
    const kept = await findDraft(actor.claimId);
    expect(kept && findingsFromAnswers(kept, edition1).find(({ code }) => code === "F13")).toMatchObject({ measured: 127, typedValue: "127", note: CONFIRMED_AS_UNUSUAL });
  });

  test("is counted by caller", async () => {
    const caller = randomUUID();
    const answers = [];
    for (let tries = 0; tries < 21; tries++) {
      const actor = await aDraft();
      await database().claim.update({ where: { id: actor.claimId }, data: { answers: Object.fromEntries([["who", { who: "owner" }], ...OWNER_ANSWERS]) } });
      answers.push(await fileClaim(actor, caller));
    }
    expect(answers.slice(0, 20).every(({ ok }) => ok)).toBe(true);
    expect(answers.at(20)).toEqual({ ok: false, reason: "too-many-filings" });
  });
});
