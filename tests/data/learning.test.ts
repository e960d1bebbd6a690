import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test, vi } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database, inTransaction } from "@/lib/data/client";
import { findPromotedLast, insertEdition, loadEdition, lockEditions } from "@/lib/data/editions";
import { findBacktest } from "@/lib/data/learning-runs";
import { countTrainingVerdicts, listTrainingVerdicts } from "@/lib/data/training-verdicts";
import { insertRanking } from "@/lib/data/rankings";
import { makeReference } from "@/lib/domain/claims/reference";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { askToLearn, learnEdition } from "@/lib/operations/learn-edition";
import { loadLearning } from "@/lib/operations/load-learning";
import { aStaffActor } from "@/tests/builders/a-person";

const DAY_MS = 86_400_000;
const ids = { order: randomUUID(), kit: randomUUID(), revision: randomUUID(), vehicle: randomUUID() };
let admin: StaffActor;

/** A claim filed on a day of 2026 with a look at the drain, and decided a week later. */
async function aVerdict({ day, cause, drain, stage = "decided", superseded = false }: { day: number; cause: string; drain: "present" | "absent"; stage?: ClaimStage; superseded?: boolean }): Promise<string> {
  const filedAt = new Date(Date.UTC(2026, 0, day, 12));
  const decidedAt = new Date(filedAt.getTime() + 7 * DAY_MS);
  const { id } = await database().claim.create({
    data: {
      reference: makeReference(crypto.getRandomValues(new Uint8Array(64))),
      filingKey: randomUUID(),
      stage,
      filedBy: "customer",
      contactName: "Ada Brink",
      contactEmail: "ada@example.com",
      kitRevisionId: ids.revision,
      vehicleId: ids.vehicle,
      filedAt,
      promisedAt: filedAt,
      ...(stage === "decided" ? { decidedAt } : {}),
      findings: {
        create: [
          { code: "F01", observer: "customer", answer: "present", observedAt: filedAt },
          { code: "F12", observer: "customer", answer: drain, observedAt: filedAt },
          { code: "F22", observer: "customer", answer: "unknown", observedAt: filedAt },
          { code: "F12", observer: "technician", answer: drain, observedAt: new Date(filedAt.getTime() + DAY_MS) },
          // Found after the verdict: it taught nobody anything before.
          { code: "F40", observer: "technician", answer: "present", observedAt: new Date(decidedAt.getTime() + DAY_MS) },
        ],
      },
      ...(stage === "decided"
        ? {
            verdicts: {
              create: { primaryCause: cause, contributingCauses: [], attribution: "fit", way: "confirmed", basis: "technician", remedy: "advice", letter: "Dear Ada Brink", decidedById: admin.personId, decidedAt, supersededAt: superseded ? decidedAt : null },
            },
          }
        : {}),
    },
    select: { id: true },
  });
  return id;
}

beforeAll(async () => {
  admin = await aStaffActor("admin");
  await database().kit.create({ data: { id: ids.kit, code: "LK-1", name: "Kit of the lesson", revisions: { create: { id: ids.revision, revision: "A", introducedOn: new Date("2025-01-01") } } } });
  await database().vehicle.create({ data: { id: ids.vehicle, make: "Halvorn", model: "Carrow", engine: "2.0", fuel: "diesel", yearFrom: 2012 } });
  await database().order.create({ data: { id: ids.order, number: "L-1", customerEmail: "ada@example.com", customerName: "Ada Brink", country: "DE", placedOn: new Date("2025-06-01") } });
  await database().shipment.createMany({ data: Array.from({ length: 2000 }, (_, place) => ({ orderId: ids.order, kitRevisionId: ids.revision, vehicleId: place % 3 ? ids.vehicle : null, shippedOn: new Date("2025-11-01") })) });
});

describe("with nothing to learn from", () => {
  test("nothing is proposed, and the trail says why", async () => {
    expect(await learnEdition(admin.personId)).toEqual({ ok: false, reason: "too-few-verdicts" });
    expect(await database().knowledgeEdition.count()).toBe(1);
    expect(await loadLearning(admin)).toMatchObject({ lastAct: { action: "learn_nothing", detail: { why: "too-few-verdicts" } }, proposal: null, shown: { months: [], inForce: null } });
  });
});

describe("learning from confirmed verdicts", () => {
  beforeAll(async () => {
    for (let place = 0; place < 100; place++) await aVerdict({ day: 1 + place, cause: place % 4 === 0 ? "C11" : "C01", drain: place % 4 === 0 ? "absent" : "present" });
    await aVerdict({ day: 30, cause: "C17", drain: "absent", superseded: true });
    await aVerdict({ day: 30, cause: "C17", drain: "absent", stage: "withdrawn" });
    const cleared = await aVerdict({ day: 40, cause: "", drain: "present", stage: "cleared" });
    const look = await database().finding.findFirstOrThrow({ where: { claimId: cleared, code: "F12", observer: "technician" } });
    await database().checkRequest.create({ data: { claimId: cleared, findingCode: "F12", state: "answered", askedById: admin.personId, askedAt: look.observedAt, closedAt: look.observedAt, findingId: look.id } });
  });

  test("counts verdicts that stand and claims that a check put right, and nothing else", async () => {
    expect((await countTrainingVerdicts()).toSorted((a, b) => a.verdicts - b.verdicts)).toEqual([
      { confirmation: "cleared", verdicts: 1 },
      { confirmation: "technician", verdicts: 100 },
    ]);
  });

  test("reads them in pieces, each once, with what was known when the claim was filed and what was found before the verdict", async () => {
    const first = await listTrainingVerdicts({}, null, 60);
    const last = first.at(-1);
    const rest = await listTrainingVerdicts({}, last ? { at: last.at, id: last.id } : null, 60);
    const all = [...first, ...rest];
    expect(all).toHaveLength(101);
    expect(new Set(all.map(({ id }) => id)).size).toBe(101);
    expect(all.map(({ at }) => at.getTime())).toEqual(all.map(({ at }) => at.getTime()).toSorted((a, b) => a - b));
    expect(all[0]).toMatchObject({
      kit: ids.kit,
      vehicle: ids.vehicle,
      firstContact: [{ finding: "F01", observer: "customer", answer: "present" }, { finding: "F12", observer: "customer" }],
      later: [{ finding: "F12", observer: "technician" }],
    });
    expect(all.find(({ confirmation }) => confirmation === "cleared")).toMatchObject({ primary: null, putRightBy: { finding: "F12", observer: "technician" } });
  });

  test("proposes an edition with its backtest on the later ones, which a person may promote; until then the old one is in force", async () => {
    const learned = await learnEdition(admin.personId);
    if (!learned.ok) throw new Error(`not learned: ${learned.reason}`);
    expect(await findPromotedLast()).toMatchObject({ number: 1 });
    expect(await database().knowledgeEdition.findUniqueOrThrow({ where: { number: learned.number } })).toMatchObject({ origin: "learned", basisNumber: 1, promotedAt: null, proposedById: admin.personId });
    const edition = await loadEdition(learned.number);
    const base = edition.causes.find(({ code }) => code === "C01")?.base;
    // 80 of 101 by time may teach, the claim that a check put right among them.
    expect(base?.provenance).toMatchObject({ kind: "learned", counts: { hits: 60 } });
    expect(base?.value).toBeGreaterThan(edition1.causes[0]?.base.value ?? 1);
    const backtest = await findBacktest(learned.number);
    expect(backtest).toMatchObject({ againstNumber: 1, report: { learnedFrom: 80, scored: 21 } });
    const [firstContact] = backtest?.report.views ?? [];
    expect(firstContact?.after.logLoss).toBeLessThan(firstContact?.before.logLoss ?? 0);
    expect(await loadLearning(admin)).toMatchObject({ mayLearn: true, proposal: { edition: { number: learned.number }, state: "proposed", against: 1 } });
  });

  test("again, with that edition in force, counts no verdict a second time", async () => {
    const newest = await database().knowledgeEdition.findFirstOrThrow({ where: { origin: "learned" }, orderBy: { number: "desc" } });
    await database().knowledgeEdition.update({ where: { number: newest.number }, data: { promotedAt: new Date() } });
    const [before, again] = [await loadEdition(newest.number), await learnEdition(admin.personId)];
    const after = again.ok ? await loadEdition(again.number) : before;
    const c11 = (edition: typeof before) => edition.causes.find(({ code }) => code === "C11")?.base;
    expect(c11(after)?.provenance).toMatchObject({ counts: { hits: 20 } });
    // It may move a little with links that had stopped at their bound before.
    expect((c11(after)?.value ?? 0) / (c11(before)?.value ?? 1)).toBeCloseTo(1, 1);
  });

  test("never scores an edition typed by hand on verdicts that taught the one it was made from", async () => {
    const learned = await database().knowledgeEdition.findFirstOrThrow({ where: { origin: "learned", promotedAt: { not: null } } });
    const byHand = await insertEdition(database(), { edition: await loadEdition(learned.number), origin: "by_hand", basisNumber: learned.number, why: "A name", proposedById: admin.personId });
    await database().knowledgeEdition.update({ where: { number: byHand }, data: { promotedAt: new Date(Date.now() + 500) } });
    // Verdicts found in an old folder: four fifths of all end earlier than what taught the learned edition.
    for (let place = 0; place < 50; place++) await aVerdict({ day: -place, cause: "C01", drain: "present" });
    const again = await learnEdition(admin.personId);
    if (!again.ok) throw new Error(`not learned: ${again.reason}`);
    const [before, after] = [await findBacktest(learned.number), await findBacktest(again.number)];
    expect(after?.againstNumber).toBe(byHand);
    expect(after?.report.splitAt).toBe(before?.report.splitAt);
  });

  test("is asked for once at a time, by the worker's job", async () => {
    expect(await askToLearn(admin)).toEqual({ ok: true });
    expect(await askToLearn(admin)).toEqual({ ok: false, reason: "learning-already" });
    const [job] = await database().$queryRaw<{ key: string }[]>`SELECT key FROM graphile_worker.jobs WHERE task_identifier = 'learn-edition'`;
    expect(job).toEqual({ key: "learn-edition" });
    // Long without an answer, it may be asked for again.
    expect(await askToLearn(admin, new Date(Date.now() + 3_600_000))).toEqual({ ok: true });
  });

  test("does not propose beside an edition that came into force meanwhile", async () => {
    const isWaiting = async () => (await database().$queryRaw<{ waiting: number }[]>`SELECT count(*)::int AS waiting FROM pg_locks WHERE NOT granted AND relation = 'knowledge_edition'::regclass`)[0]?.waiting === 1;
    let running: ReturnType<typeof learnEdition> | undefined;
    await inTransaction(async (db) => {
      await lockEditions(db);
      running = learnEdition(admin.personId);
      await vi.waitUntil(isWaiting, { timeout: 120_000, interval: 50 });
      const { number } = await findPromotedLast(db);
      await insertEdition(db, { edition: edition1, origin: "by_hand", basisNumber: number, why: "Meanwhile", proposedById: admin.personId });
      await db.knowledgeEdition.updateMany({ where: { why: "Meanwhile" }, data: { promotedAt: new Date(Date.now() + 1000) } });
    });
    expect(await running).toEqual({ ok: false, reason: "changed-meanwhile" });
  });
});

test("what was shown at first contact is held against the later verdict, month by month", async () => {
  const claimId = await aVerdict({ day: 200, cause: "C01", drain: "present" });
  const { filedAt } = await database().claim.findUniqueOrThrow({ where: { id: claimId }, select: { filedAt: true } });
  const ranking = rankCauses([{ finding: "F01", observer: "customer", answer: "present" }], await loadEdition((await findPromotedLast()).number));
  const { id } = await inTransaction((db) => insertRanking(db, claimId, [], ranking, null));
  await database().ranking.update({ where: { id }, data: { createdAt: filedAt ?? new Date() } });
  const leader = ranking.outcome === "ranked" ? ranking.causes[0] : undefined;
  const sheet = await loadLearning(admin);
  if (!sheet.ok) throw new Error("the administrator may see it");
  expect(sheet.shown.months).toHaveLength(1);
  expect(sheet.shown.months[0]).toMatchObject({ month: "2026-07", verdicts: 1, led: leader?.code === "C01" ? 1 : 0 });
  expect(sheet.shown.months[0]?.shownForLeader).toBeCloseTo(leader?.probability ?? 0, 12);
  expect(sheet.shown.inForce?.verdicts).toBe(1);
});
