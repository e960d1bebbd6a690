import { describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { listMarksOfClaim } from "@/lib/data/photo-marks";
import { messageTemplateSchema } from "@/lib/inputs/message-template";
import { photoMarkSchema } from "@/lib/inputs/photo-mark";
import { askForCheck } from "@/lib/operations/ask-for-check";
import { loadClaim } from "@/lib/operations/load-claim";
import { loadElsewhere } from "@/lib/operations/load-elsewhere";
import { loadFilledTemplate } from "@/lib/operations/load-filled-template";
import { loadMarkedPhoto } from "@/lib/operations/load-marked-photo";
import { loadMyClaim } from "@/lib/operations/load-my-claim";
import { markPhoto, removePhotoMark } from "@/lib/operations/mark-photo";
import { dropMessageTemplate, keepMessageTemplate, loadMessageTemplates } from "@/lib/operations/message-templates";
import { writeDeskNote } from "@/lib/operations/write-desk-note";
import { writeStaffMessage } from "@/lib/operations/write-staff-message";
import { aStaffActor } from "@/tests/builders/a-person";
import { aFiledClaim, aForm } from "@/tests/builders/intake";

let photos = 0;
function aPhoto(claimId: string) {
  photos += 1;
  return database().photo.create({ data: { claimId, subject: "drain", storageKey: `beside/${claimId}/${photos}`, width: 1200, height: 900, bytes: 10, sha256: String(photos).padStart(64, "0"), takenBy: "customer" } });
}

const actionsOf = async (claimId: string) => (await database().auditEntry.findMany({ where: { claimId }, orderBy: { id: "asc" } })).map(({ action }) => action);
const KINKED = { x: 0.25, y: 0.5, word: "kinked here" };

describe("a mark on a photo", () => {
  test("is numbered, stays a share of the picture, and stands on the claim and in the story", async () => {
    const [{ claimId }, bench] = [await aFiledClaim(), await aStaffActor("bench")];
    const photo = await aPhoto(claimId);
    expect(await markPhoto(bench, claimId, photo.id, KINKED)).toEqual({ ok: true, number: 1 });
    expect(await loadMarkedPhoto(bench, claimId, photo.id)).toMatchObject({ place: 1, of: 1, photo: { marks: [{ ...KINKED, number: 1, madeBy: { id: bench.personId } }] } });
    expect(await loadClaim(bench, claimId)).toMatchObject({ photos: [{ marks: [{ number: 1, word: "kinked here" }] }] });
    expect(await actionsOf(claimId)).toContain("mark_photo");
  });

  test("put by two people at once gives two numbers, and a number taken away is never used again", async () => {
    const [{ claimId }, support, bench] = [await aFiledClaim(), await aStaffActor("support"), await aStaffActor("bench")];
    const photo = await aPhoto(claimId);
    const put = await Promise.all([support, bench].map((actor) => markPhoto(actor, claimId, photo.id, KINKED)));
    expect(put.map((one) => one.ok && one.number).sort()).toEqual([1, 2]);
    const last = (await listMarksOfClaim(claimId)).find(({ number }) => number === 2);
    await removePhotoMark(await aStaffActor("admin"), claimId, last?.id ?? "");
    expect(await markPhoto(support, claimId, photo.id, KINKED)).toEqual({ ok: true, number: 3 });
    expect((await listMarksOfClaim(claimId)).map(({ number }) => number)).toEqual([1, 3]);
  });

  test("is taken away by who put it or an administrator, once", async () => {
    const [{ claimId }, support, other] = [await aFiledClaim(), await aStaffActor("support"), await aStaffActor("support")];
    const photo = await aPhoto(claimId);
    await markPhoto(support, claimId, photo.id, KINKED);
    const [mark] = await listMarksOfClaim(claimId);
    expect(await removePhotoMark(other, claimId, mark?.id ?? "")).toEqual({ ok: false, reason: "somebody-elses" });
    expect(await loadMarkedPhoto(other, claimId, photo.id)).toMatchObject({ removable: [] });
    const twice = await Promise.all([removePhotoMark(support, claimId, mark?.id ?? ""), removePhotoMark(await aStaffActor("admin"), claimId, mark?.id ?? "")]);
    expect(twice.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await listMarksOfClaim(claimId)).toEqual([]);
  });

  test("is not put on, or taken off, another claim's photo", async () => {
    const [{ claimId }, other, support] = [await aFiledClaim(), await aFiledClaim(), await aStaffActor("support")];
    const photo = await aPhoto(claimId);
    expect(await markPhoto(support, other.claimId, photo.id, KINKED)).toEqual({ ok: false, reason: "not-found" });
    await markPhoto(support, claimId, photo.id, KINKED);
    const [mark] = await listMarksOfClaim(claimId);
    expect(await removePhotoMark(support, other.claimId, mark?.id ?? "")).toEqual({ ok: false, reason: "not-found" });
    expect(await loadMarkedPhoto(support, other.claimId, photo.id)).toEqual({ ok: false, reason: "not-found" });
  });

  test("is typed in per cent, with a comma or a sign, and lies on the picture", () => {
    expect(photoMarkSchema.parse({ x: "12,5 %", y: "100", word: " kinked " })).toEqual({ x: 0.125, y: 1, word: "kinked" });
    for (const x of ["", "101", "-1", "left"]) expect(photoMarkSchema.safeParse({ x, y: "1", word: "kinked" }).error?.issues.map(({ path }) => path[0])).toEqual(["x"]);
  });
});

describe("a note of the desk", () => {
  test("is kept once when posted twice at once, and answers nothing", async () => {
    const [{ claimId }, bench] = [await aFiledClaim(), await aStaffActor("bench")];
    const form = () => aForm({ deskNote: "The garage called." });
    await Promise.all([writeDeskNote(bench, claimId, form()), writeDeskNote(bench, claimId, form())]);
    expect(await loadClaim(bench, claimId)).toMatchObject({ notes: [{ body: "The garage called." }], firstAnswerAt: null, stage: "filed" });
    expect(await writeDeskNote(bench, claimId, aForm({ deskNote: " " }))).toMatchObject({ ok: false, reason: "refused" });
  });

  test("is never shown to the customer, nor to a role that may not see customers", async () => {
    const customer = await aFiledClaim();
    await writeDeskNote(await aStaffActor("support"), customer.claimId, aForm({ deskNote: "Secret of the desk" }));
    expect(JSON.stringify(await loadMyClaim(customer))).not.toContain("Secret of the desk");
    const shown = await loadClaim(await aStaffActor("product"), customer.claimId);
    expect(shown).toMatchObject({ notes: null });
    expect(JSON.stringify(shown)).not.toContain("Secret of the desk");
  });
});

describe("message templates", () => {
  const TEXTS = { name: "Try of a template", english: "Hello {name}, {check asked} by {promised day}.", german: "Hallo {name}, {check asked}." };
  const find = async (actor: StaffActor, name: string) => {
    const loaded = await loadMessageTemplates(actor);
    const template = loaded.ok ? loaded.templates.find((one) => one.name === name) : undefined;
    if (!template) throw new Error(`no template ${name}`);
    return template;
  };

  test("that every installation begins with are sound: eight, each in both languages with known gaps", async () => {
    const shipped = await database().messageTemplate.findMany({ where: { changedById: null } });
    expect(shipped).toHaveLength(8);
    for (const template of shipped) expect(messageTemplateSchema.safeParse(template).error, template.name).toBeUndefined();
  });

  test("are filled with what the claim knows, in the customer's language or the one asked for, and name the gaps left", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    await keepMessageTemplate(support, null, TEXTS);
    const { id } = await find(support, TEXTS.name);
    const empty = await loadFilledTemplate(support, claimId, { id });
    expect(empty).toMatchObject({ filled: { open: ["check asked"] }, language: "en" });
    await askForCheck(support, claimId, "F25", aForm({ note: "" }));
    const filled = await loadFilledTemplate(support, claimId, { id });
    expect(filled.ok && filled.filled?.open).toEqual([]);
    expect(filled.ok && filled.filled?.text).not.toContain("{");
    const inGerman = await loadFilledTemplate(support, claimId, { id, language: "de" });
    const german = (await loadEditionInForce()).translations.de?.["findings.F25.name"]?.text;
    expect(german).toEqual(expect.any(String));
    expect(inGerman).toMatchObject({ filled: { text: expect.stringMatching(/^Hallo Ada/) } });
    expect(inGerman.ok && inGerman.filled?.text.endsWith(`, ${german}.`)).toBe(true);
    // A promise that has passed is none.
    expect(await loadFilledTemplate(support, claimId, { id }, new Date(Date.now() + 90 * 86_400_000))).toMatchObject({ filled: { open: ["promised day"] } });
  });

  test("with a gap left do not go out as a message", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    expect(await writeStaffMessage(support, claimId, aForm({ body: "By {promised day}, {name}." }))).toEqual({ ok: false, reason: "refused", messages: { body: expect.stringContaining("{name}, {promised day}") } });
    expect(await database().message.count({ where: { claimId } })).toBe(0);
    expect(await writeStaffMessage(support, claimId, aForm({ body: "A brace {as such} is no gap." }))).toEqual({ ok: true });
  });

  test("changed by two at once are changed by the first, and the second is told; a name is taken once", async () => {
    const [support, admin] = [await aStaffActor("support"), await aStaffActor("admin")];
    await keepMessageTemplate(support, null, { ...TEXTS, name: "Changed twice" });
    const { id, version } = await find(support, "Changed twice");
    const changed = await Promise.all([support, admin].map((actor) => keepMessageTemplate(actor, { id, version }, { ...TEXTS, name: "Changed twice", english: actor.role })));
    expect(changed.filter(({ ok }) => ok)).toHaveLength(1);
    expect(changed.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "changed-meanwhile" });
    expect(await keepMessageTemplate(support, null, { ...TEXTS, name: "Changed twice" })).toEqual({ ok: false, reason: "name-taken" });
    expect(await dropMessageTemplate(support, { id, version })).toEqual({ ok: false, reason: "changed-meanwhile" });
    expect(await dropMessageTemplate(support, { id, version: version + 1 })).toEqual({ ok: true });
  });
});

test("elsewhere counts the decided claims about the same kit on the same vehicle, whatever the revision, and leaves the claim itself out", async () => {
  const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
  const vehicle = await database().vehicle.create({ data: { make: "Elsewhere", model: "One", engine: "2.0", fuel: "diesel", yearFrom: 2010 } });
  const kit = await database().kit.create({ data: { code: "ELSE-1", name: "Elsewhere kit", revisions: { create: ["A", "B"].map((revision) => ({ revision, introducedOn: new Date("2025-01-01") })) } }, include: { revisions: true } });
  expect(await loadElsewhere(support, claimId)).toMatchObject({ elsewhere: null });
  await database().claim.update({ where: { id: claimId }, data: { vehicleId: vehicle.id, kitRevisionId: kit.revisions[0]?.id ?? null } });
  for (const [index, { id: kitRevisionId }] of kit.revisions.entries()) {
    const month = new Date(Date.UTC(2025, index, 1));
    await database().shippedCell.create({ data: { kitRevisionId, vehicleId: vehicle.id, month, units: 40 } });
    await database().causeCell.create({ data: { kitRevisionId, vehicleId: vehicle.id, month, role: "primary", cause: "C01", attribution: "fit", origin: "fitter", millionths: 4_000_000 } });
    await database().causeCell.create({ data: { kitRevisionId, vehicleId: vehicle.id, month, role: "contributing", cause: "C07", attribution: "fit", origin: "fitter", millionths: 9_000_000 } });
  }
  await database().reportClaim.upsert({ where: { claimId }, create: { claimId, filedAt: new Date(), outcome: "fit", cause: "C01" }, update: { outcome: "fit", cause: "C01" } });
  expect(await loadElsewhere(support, claimId)).toEqual({ ok: true, seesReports: true, elsewhere: { kit: "ELSE-1", vehicle: vehicle.id, from: "2025-01", to: "2025-02", shipped: 80, causes: [{ cause: "C01", claims: 7 }] } });
  expect(await loadElsewhere(await aStaffActor("bench"), claimId)).toMatchObject({ seesReports: false });
});
