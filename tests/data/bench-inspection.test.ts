import { randomUUID } from "node:crypto";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { PIECE_BYTES } from "@/lib/domain/intake/photo-pieces";
import { CONFIRMED_AS_UNUSUAL } from "@/lib/domain/intake/unusual-number";
import { attachBenchPhoto } from "@/lib/operations/attach-bench-photo";
import { decideDisposition, loadDisposition, loadEvidence } from "@/lib/operations/decide-disposition";
import { finishInspection } from "@/lib/operations/finish-inspection";
import { loadInspection } from "@/lib/operations/load-inspection";
import { loadReturnsOfClaim } from "@/lib/operations/load-returns";
import { openInspection, takeOverInspection } from "@/lib/operations/open-inspection";
import { howMuchArrivedAtBench, type Piece, receiveBenchPiece } from "@/lib/operations/receive-piece";
import { saveInspectionStep } from "@/lib/operations/save-inspection-step";
import { aUnitHere } from "@/tests/builders/a-return";
import { aStaffActor } from "@/tests/builders/a-person";
import { aForm } from "@/tests/builders/intake";

let bench: StaffActor;
let other: StaffActor;
beforeAll(async () => {
  bench = await aStaffActor("bench");
  other = await aStaffActor("bench");
});

async function anInspection(given?: Parameters<typeof aUnitHere>[1]) {
  const unit = await aUnitHere(bench, given);
  expect(await openInspection(bench, unit.claimId)).toEqual({ ok: true });
  return unit;
}

const findingsOf = (claimId: string) => database().finding.findMany({ where: { claimId, replacedAt: null }, orderBy: { code: "asc" } });
const claimOf = (id: string) => database().claim.findUniqueOrThrow({ where: { id } });

describe("a bench inspection", () => {
  test("is begun once, of two people at once by one, and puts the unit on the bench", async () => {
    const { claimId, returnId } = await aUnitHere(bench);
    const both = await Promise.all([openInspection(bench, claimId), openInspection(other, claimId)]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toMatchObject({ reason: "held-by-another" });
    expect(await database().return.findUniqueOrThrow({ where: { id: returnId } })).toMatchObject({ state: "on_the_bench" });
    expect(await database().benchInspection.count({ where: { returnId } })).toBe(1);
  });

  test("keeps each step at once as the bench's finding, moves the ranking and says from where to where", async () => {
    const { claimId } = await anInspection();
    expect(await saveInspectionStep(bench, claimId, "fore_and_aft", aForm({ F40: "present", F41: "0,31", "F41-unit": "mm" }))).toEqual({ ok: true, recorded: ["F40", "F41"] });
    expect(await findingsOf(claimId)).toMatchObject([
      { code: "F40", observer: "bench", answer: "present", personId: bench.personId },
      { code: "F41", observer: "bench", measured: 0.31, typedValue: "0,31", typedUnit: "mm" },
    ]);
    const afterPlay = (await claimOf(claimId)).unitProbability ?? 0;
    expect(await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "present" }))).toEqual({ ok: true, recorded: ["F45"] });
    const sheet = await loadInspection(bench, claimId);
    if (!sheet.ok) throw new Error(sheet.reason);
    const rings = sheet.steps.find(({ step }) => step === "rings")?.kept;
    expect(rings?.unitBefore).toBeCloseTo(afterPlay, 12);
    expect(rings?.unitAfter).toBeCloseTo((await claimOf(claimId)).unitProbability ?? 0, 12);
    expect(rings?.unitAfter).toBeGreaterThan(afterPlay);
  });

  test("of one person goes on where another device left it", async () => {
    const { claimId } = await anInspection();
    await saveInspectionStep(bench, claimId, "wheels", aForm({ F43: "absent", note: "Handling scuff on one blade" }));
    expect(await openInspection(bench, claimId)).toEqual({ ok: true });
    const sheet = await loadInspection(bench, claimId);
    expect(sheet.ok && sheet.open).toMatchObject({ isMine: true });
    expect(sheet.ok && sheet.steps.find(({ step }) => step === "wheels")?.kept?.typed).toEqual({ F43: "absent", note: "Handling scuff on one blade" });
  });

  test("counts a step that is sent twice once, and records only what has changed", async () => {
    const { claimId } = await anInspection();
    const send = (values: Record<string, string>) => saveInspectionStep(bench, claimId, "oilways", aForm(values));
    await Promise.all([send({ F46: "absent", F47: "present" }), send({ F46: "absent", F47: "present" })]);
    expect(await database().finding.count({ where: { claimId } })).toBe(2);
    expect(await database().ranking.count({ where: { claimId } })).toBe(1);
    expect(await send({ F46: "present", F47: "present" })).toEqual({ ok: true, recorded: ["F46"] });
    expect(await send({ F47: "present" })).toEqual({ ok: true, recorded: ["F46"] });
    expect(await findingsOf(claimId)).toMatchObject([{ code: "F46", answer: "unknown" }, { code: "F47", answer: "present" }]);
  });

  test("takes a number back when it cannot be told after all", async () => {
    const { claimId } = await anInspection();
    await saveInspectionStep(bench, claimId, "radial", aForm({ F42: "0.3", "F42-unit": "mm" }));
    expect(await saveInspectionStep(bench, claimId, "radial", aForm({ F42: "0.3", "F42-unit": "mm", "F42-cannot-tell": "yes" }))).toEqual({ ok: true, recorded: ["F42"] });
    expect(await findingsOf(claimId)).toMatchObject([{ code: "F42", answer: "unknown", measured: null }]);
  });

  test("asks about an unusual number, and keeps it once it is confirmed", async () => {
    const { claimId } = await anInspection();
    const save = (values: Record<string, string>) => saveInspectionStep(bench, claimId, "fore_and_aft", aForm(values));
    expect(await save({ F41: "31" })).toMatchObject({ ok: false, reason: "refused", messages: { F41: expect.stringMatching(/unusual/) } });
    expect(await save({ F41: "little" })).toMatchObject({ ok: false, reason: "refused", messages: { F41: expect.any(String) } });
    expect(await findingsOf(claimId)).toEqual([]);
    expect(await save({ F41: "31", "F41-confirmed": "31 mm" })).toEqual({ ok: true, recorded: ["F41"] });
    expect(await findingsOf(claimId)).toMatchObject([{ code: "F41", measured: 31, note: CONFIRMED_AS_UNUSUAL }]);
  });

  test("tells of the drain what sealant in the outlet says of it, and takes that back with it", async () => {
    const { claimId } = await anInspection();
    expect(await saveInspectionStep(bench, claimId, "outlet", aForm({ sealant: "closing", gasket: "torn", F18: "present" }))).toEqual({ ok: true, recorded: ["F18", "F17"] });
    expect(await findingsOf(claimId)).toMatchObject([{ code: "F17", observer: "technician", answer: "present" }, { code: "F18", observer: "technician", answer: "present" }]);
    const { leaderCause } = await claimOf(claimId);
    expect(edition1.causes.find(({ code }) => code === leaderCause)?.part).toBe("drain");
    await saveInspectionStep(bench, claimId, "outlet", aForm({ sealant: "none", gasket: "torn", F18: "present" }));
    expect(await findingsOf(claimId)).toMatchObject([{ code: "F17", answer: "unknown" }, { code: "F18", answer: "present" }]);
  });

  test("may skip a step and keeps what was done of it before", async () => {
    const { claimId } = await anInspection();
    expect(await saveInspectionStep(bench, claimId, "rig", aForm({ go: "skip", F48: "present" }))).toEqual({ ok: true, recorded: [] });
    await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "absent" }));
    await saveInspectionStep(bench, claimId, "rings", aForm({ go: "skip" }));
    const sheet = await loadInspection(bench, claimId);
    expect(sheet.ok && sheet.steps.find(({ step }) => step === "rig")?.kept).toMatchObject({ isSkipped: true, typed: {} });
    expect(sheet.ok && sheet.steps.find(({ step }) => step === "rings")?.kept).toMatchObject({ isSkipped: false, typed: { F45: "absent" } });
    expect(await findingsOf(claimId)).toMatchObject([{ code: "F45", answer: "absent" }]);
  });

  test("taken over is kept, and whoever had it is told and keeps nothing more", async () => {
    const { claimId } = await anInspection();
    await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "present" }));
    expect(await saveInspectionStep(other, claimId, "oilways", aForm({ F47: "present" }))).toMatchObject({ ok: false, reason: "held-by-another" });
    expect(await takeOverInspection(other, claimId)).toEqual({ ok: true });
    expect(await saveInspectionStep(bench, claimId, "oilways", aForm({ F47: "present" }))).toMatchObject({ ok: false, reason: "held-by-another" });
    expect(await finishInspection(bench, claimId, { note: "" })).toMatchObject({ ok: false, reason: "held-by-another" });
    expect(await finishInspection(other, claimId, { note: "" })).toEqual({ ok: true, findings: 1 });
    expect(await findingsOf(claimId)).toMatchObject([{ code: "F45", personId: bench.personId }]);
  });

  test("of a unit with another serial goes on only when somebody says it is the one all the same, and how they know", async () => {
    const { claimId, returnId } = await anInspection({ serial: "BK-1042", serialSeen: "BK-1042" });
    expect(await saveInspectionStep(bench, claimId, "identity", aForm({ plate: "other" }))).toMatchObject({ ok: false, reason: "refused", messages: { serialRead: expect.any(String) } });
    expect(await saveInspectionStep(bench, claimId, "identity", aForm({ plate: "other", serialRead: "BK-9999" }))).toEqual({ ok: false, reason: "another-unit" });
    expect(await database().return.findUniqueOrThrow({ where: { id: returnId } })).toMatchObject({ serialSeen: "BK-9999", sameUnitAt: null });
    expect(await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "present" }))).toEqual({ ok: false, reason: "another-unit" });
    expect(await finishInspection(bench, claimId, { note: "x" })).toEqual({ ok: false, reason: "another-unit" });
    const confirmed = { plate: "other", serialRead: "BK-9999", isThisUnit: "yes" };
    expect(await saveInspectionStep(bench, claimId, "identity", aForm(confirmed))).toMatchObject({ ok: false, reason: "refused", messages: { note: expect.any(String) } });
    expect(await saveInspectionStep(bench, claimId, "identity", aForm({ ...confirmed, note: "The plate was changed with the housing" }))).toEqual({ ok: true, recorded: [] });
    expect(await database().return.findUniqueOrThrow({ where: { id: returnId } })).toMatchObject({ sameUnitById: bench.personId, sameUnitNote: "The plate was changed with the housing" });
    expect(await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "present" }))).toEqual({ ok: true, recorded: ["F45"] });
  });

  test("is finished once, and brings the claim back into review", async () => {
    const { claimId, returnId } = await anInspection();
    expect(await finishInspection(bench, claimId, { note: "" })).toEqual({ ok: false, reason: "nothing-found" });
    await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "present" }));
    const both = await Promise.all([finishInspection(bench, claimId, { note: "Play felt by hand." }), finishInspection(bench, claimId, { note: "Play felt by hand." })]);
    expect(both.filter(({ ok }) => ok)).toEqual([{ ok: true, findings: 1 }]);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "not-on-the-bench" });
    expect(await claimOf(claimId)).toMatchObject({ stage: "in_review" });
    expect(await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "absent" }))).toEqual({ ok: false, reason: "not-on-the-bench" });
    expect(await database().return.findUniqueOrThrow({ where: { id: returnId } })).toMatchObject({ state: "on_the_bench" });
    expect(await loadReturnsOfClaim(await aStaffActor("support"), claimId)).toMatchObject({ ok: true, inspections: [{ note: "Play felt by hand.", _count: { findings: 1 } }] });
  });

  test("of a unit that comes after the verdict is kept and leaves the claim decided", async () => {
    const { claimId } = await anInspection();
    await database().claim.update({ where: { id: claimId }, data: { stage: "decided", decidedAt: new Date() } });
    await saveInspectionStep(bench, claimId, "rings", aForm({ F45: "present" }));
    expect((await finishInspection(bench, claimId, { note: "" })).ok).toBe(true);
    expect(await claimOf(claimId)).toMatchObject({ stage: "decided" });
    expect(await database().auditEntry.count({ where: { claimId, action: "inspect_late" } })).toBe(1);
  });

  test("keeps photos with the step they were taken at, each once, and none without an inspection", async () => {
    const jpeg = new Uint8Array(await sharp({ create: { width: 40, height: 30, channels: 3, background: "#456" } }).jpeg().toBuffer());
    const { claimId } = await aUnitHere(bench);
    expect(await attachBenchPhoto(bench, claimId, "rings", jpeg)).toEqual({ ok: false, reason: "not-on-the-bench" });
    await openInspection(bench, claimId);
    const sent = await Promise.all([attachBenchPhoto(bench, claimId, "rings", jpeg), attachBenchPhoto(bench, claimId, "rings", jpeg)]);
    expect(sent[0]).toEqual(sent[1]);
    const sheet = await loadInspection(bench, claimId);
    expect(sheet.ok && sheet.steps.find(({ step }) => step === "rings")?.photos).toHaveLength(1);
    expect(await database().photo.findMany({ where: { claimId } })).toMatchObject([{ takenBy: "bench", benchStep: "rings", subject: "shaft" }]);
  });

  test("puts photos together from pieces, whoever sends the next one, and each piece once", async () => {
    const photo = await aLargePhoto();
    const { claimId } = await aUnitHere(bench);
    const uploadId = randomUUID();
    const piece = (begin: number): Piece => ({ uploadId, bytes: photo.length, begin, content: photo.subarray(begin, begin + PIECE_BYTES) });
    const send = (begin: number, actor = bench) => receiveBenchPiece(actor, claimId, "wheels", piece(begin));
    expect(await send(0)).toEqual({ ok: false, reason: "not-on-the-bench" });
    await openInspection(bench, claimId);
    expect(await send(0)).toEqual({ ok: true, received: PIECE_BYTES, isWhole: false });
    expect(await send(0)).toMatchObject({ ok: false, reason: "another-piece", received: PIECE_BYTES });
    expect(await howMuchArrivedAtBench(other, claimId, uploadId)).toEqual({ ok: true, received: PIECE_BYTES, isWhole: false });
    // Another claim's number is nobody's.
    const elsewhere = await anInspection();
    expect(await receiveBenchPiece(bench, elsewhere.claimId, "wheels", piece(PIECE_BYTES))).toEqual({ ok: false, reason: "not-a-photo" });
    for (let begin = PIECE_BYTES; begin < photo.length; begin += PIECE_BYTES) expect((await send(begin, other)).ok).toBe(true);
    expect(await send(0)).toEqual({ ok: true, received: photo.length, isWhole: true });
    expect(await database().photo.findMany({ where: { claimId } })).toMatchObject([{ takenBy: "bench", benchStep: "wheels" }]);
  });

  test("refuses what is no photo once it is whole, and forgets its pieces", async () => {
    const { claimId } = await anInspection();
    const uploadId = randomUUID();
    const content = new TextEncoder().encode("%PDF-1.7 a letter");
    expect(await receiveBenchPiece(bench, claimId, "other", { uploadId, bytes: content.length, begin: 0, content })).toEqual({ ok: false, reason: "not-a-photo" });
    expect(await database().photoUpload.count({ where: { claimId } })).toBe(0);
  });
});

/** A photo with enough in it to take several pieces. */
async function aLargePhoto(): Promise<Uint8Array> {
  const [width, height] = [900, 700];
  const noise = Buffer.from(Uint8Array.from({ length: width * height * 3 }, (_, at) => (at * 7919 + ((at * at) % 251)) % 256));
  return new Uint8Array(await sharp(noise, { raw: { width, height, channels: 3 } }).jpeg({ quality: 90 }).toBuffer());
}

describe("a disposition", () => {
  const wanted = { kind: "held_as_evidence", keepUntil: "2099-01-31", reason: "", seen: "" } as const;
  const inspected = async () => {
    const unit = await anInspection();
    await saveInspectionStep(bench, unit.claimId, "rings", aForm({ F45: "present" }));
    await finishInspection(bench, unit.claimId, { note: "" });
    return unit;
  };
  const standingOf = (returnId: string) => database().disposition.findFirstOrThrow({ where: { returnId, supersededAt: null } });

  test("is decided once of two at once, closes the return and holds evidence until its day", async () => {
    const { claimId, returnId } = await inspected();
    const both = await Promise.all([decideDisposition(bench, claimId, { ...wanted, returnId }), decideDisposition(other, claimId, { ...wanted, returnId, kind: "scrapped" })]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "changed-meanwhile" });
    expect(await database().return.findUniqueOrThrow({ where: { id: returnId } })).toMatchObject({ state: "dispositioned" });
  });

  test("asks for a reason while evidence is kept, and keeps what was decided before", async () => {
    const { claimId, returnId } = await inspected();
    expect(await decideDisposition(bench, claimId, { ...wanted, keepUntil: "2020-01-31", returnId })).toEqual({ ok: false, reason: "past-day" });
    await decideDisposition(bench, claimId, { ...wanted, returnId });
    expect(await loadEvidence(bench)).toMatchObject({ ok: true, past: 0, held: expect.arrayContaining([expect.objectContaining({ claimId, place: null, isPast: false })]) });
    // Kept to the end of its day, and no longer.
    expect(await loadEvidence(bench, new Date("2099-01-31T12:00:00Z"))).toMatchObject({ past: 0 });
    expect(await loadEvidence(bench, new Date("2099-02-01T12:00:00Z"))).toMatchObject({ held: expect.arrayContaining([expect.objectContaining({ claimId, isPast: true })]) });
    const seen = (await standingOf(returnId)).id;
    const scrap = { ...wanted, kind: "scrapped" as const, returnId, seen };
    expect(await decideDisposition(bench, claimId, scrap)).toEqual({ ok: false, reason: "doubted", doubts: ["evidence-kept"] });
    expect(await decideDisposition(bench, claimId, { ...scrap, reason: "The supplier has accepted" })).toEqual({ ok: true });
    expect(await loadDisposition(bench, claimId)).toMatchObject({ ok: true, unit: { dispositions: [{ kind: "scrapped", reason: "The supplier has accepted" }, { kind: "held_as_evidence" }] } });
  });

  test("of a unit that nobody inspected needs a reason, and none is decided in the middle of an inspection", async () => {
    const { claimId, returnId } = await aUnitHere(bench);
    expect(await decideDisposition(bench, claimId, { ...wanted, kind: "scrapped", returnId })).toEqual({ ok: false, reason: "doubted", doubts: ["not-inspected"] });
    await openInspection(bench, claimId);
    expect(await decideDisposition(bench, claimId, { ...wanted, kind: "scrapped", returnId, reason: "Broken in two" })).toEqual({ ok: false, reason: "on-the-bench" });
    expect(await decideDisposition(bench, claimId, { ...wanted, returnId: randomUUID() })).toEqual({ ok: false, reason: "not-here" });
  });
});
