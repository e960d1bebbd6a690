import { randomUUID } from "node:crypto";
import sharp from "sharp";
import { beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { CustomerActor } from "@/lib/access/actors";
import { database, inTransaction } from "@/lib/data/client";
import { findDraft } from "@/lib/data/drafts";
import { moveClaim } from "@/lib/data/move-claim";
import { refreshReportCells } from "@/lib/data/report-cells";
import { pieceKey } from "@/lib/data/photo-uploads";
import { PIECE_BYTES } from "@/lib/domain/intake/photo-pieces";
import { getObject } from "@/lib/files/store";
import { attachPhoto } from "@/lib/operations/attach-photo";
import { changeUnits } from "@/lib/operations/change-units";
import { clearClaim } from "@/lib/operations/clear-claim";
import { clearDraft } from "@/lib/operations/clear-draft";
import { fileClaim } from "@/lib/operations/file-claim";
import { loadDeskQuality } from "@/lib/operations/load-desk-quality";
import { loadDraftAdvice } from "@/lib/operations/load-draft-advice";
import { loadMyClaim } from "@/lib/operations/load-my-claim";
import { receivePiece } from "@/lib/operations/receive-piece";
import { saveAnswer } from "@/lib/operations/save-answer";
import { tellCheck } from "@/lib/operations/tell-check";
import { tellDraftCheck } from "@/lib/operations/tell-draft-check";
import { deskFilterSchema } from "@/lib/inputs/desk-filter";
import { aStaffActor } from "../builders/a-person";
import { removeDiscarded } from "../builders/discarded-objects";
import { aDraft, aFiledClaim, aForm, answerAll, OWNER_ANSWERS } from "../builders/intake";

let personId: string;
beforeAll(async () => {
  personId = (await aStaffActor("support")).personId;
});

const auditOf = (action: string, claimId: string) => database().auditEntry.findMany({ where: { action, claimId } });
const standing = (claimId: string, code: string) => database().finding.findMany({ where: { claimId, code, replacedAt: null } });

/** A draft whose first questions are answered, so that checks are advised. */
async function aBegunDraft(who: "owner" | "technician" = "owner"): Promise<CustomerActor> {
  const actor = await aDraft(who);
  await answerAll(actor, OWNER_ANSWERS.slice(0, OWNER_ANSWERS.findIndex(([screen]) => screen === "amount") + 1));
  return actor;
}

describe("a check told before filing", () => {
  test("is advised from the first answers on, kept, shown as told, and filed as a finding of the customer", async () => {
    const early = await aDraft();
    expect((await loadDraftAdvice(early))?.checks).toEqual([]);

    const actor = await aBegunDraft();
    const advised = (await loadDraftAdvice(actor))?.checks.map(({ finding }) => finding) ?? [];
    expect(advised).toContain("F12");
    expect(await tellDraftCheck(actor, "F12", aForm({ F12: "present" }))).toEqual({ ok: true });
    const after = await loadDraftAdvice(actor);
    expect(after?.told.map(({ code }) => code)).toEqual(["F12"]);
    expect(after?.checks.map(({ finding }) => finding)).not.toContain("F12");

    for (let open = (await loadDraftAdvice(actor))?.next; open; open = (await loadDraftAdvice(actor))?.next) {
      const known = OWNER_ANSWERS.find(([screen]) => screen === open);
      if (!known) throw new Error(`no answer to ${open}`);
      await answerAll(actor, [known]);
    }
    expect(await fileClaim(actor, randomUUID())).toMatchObject({ ok: true });
    expect(await standing(actor.claimId, "F12")).toMatchObject([{ answer: "present", observer: "customer" }]);
  });

  test("told twice stands once, with the newest word, and \u201cI don\u2019t know\u201d takes it back", async () => {
    const actor = await aBegunDraft();
    for (const F12 of ["present", "present", "absent"]) expect(await tellDraftCheck(actor, "F12", aForm({ F12 }))).toEqual({ ok: true });
    expect((await findDraft(actor.claimId))?.answers.checks).toEqual({ F12: "absent" });
    expect(await tellDraftCheck(actor, "F12", aForm({ F12: "unknown" }))).toEqual({ ok: true });
    expect((await loadDraftAdvice(actor))?.told).toEqual([]);
  });

  test("goes into the screen that asks for it once that is answered, and that screen's answer takes its place", async () => {
    const actor = await aBegunDraft();
    await tellDraftCheck(actor, "F12", aForm({ F12: "present" }));
    expect(await saveAnswer(actor, "drain", aForm({ F12: "absent" }), randomUUID())).toMatchObject({ ok: true });
    expect((await findDraft(actor.claimId))?.answers).toMatchObject({ drain: { F12: "absent" }, checks: {} });
    await tellDraftCheck(actor, "F12", aForm({ F12: "present" }));
    expect((await findDraft(actor.claimId))?.answers).toMatchObject({ drain: { F12: "present" }, checks: {} });
  });

  test("of two at once one is kept and the other told of it, and neither is lost unsaid", async () => {
    const actor = await aBegunDraft();
    const told = await Promise.all([tellDraftCheck(actor, "F12", aForm({ F12: "present" })), tellDraftCheck(actor, "F24", aForm({ F24: "intake" }))]);
    const kept = (await findDraft(actor.claimId))?.answers.checks ?? {};
    for (const [index, code] of ["F12", "F24"].entries()) expect(told[index], code).toEqual(code in kept ? { ok: true } : { ok: false, reason: "changed-meanwhile" });
    expect(Object.keys(kept).length).toBeGreaterThan(0);
  });

  test("is refused at its field, when it is nobody's to make, and once the claim is filed", async () => {
    const actor = await aBegunDraft();
    expect(await tellDraftCheck(actor, "F12", aForm({}))).toMatchObject({ reason: "refused", messages: { F12: expect.any(String) } });
    expect(await tellDraftCheck(actor, "F12", aForm({ F12: "sideways" }))).toMatchObject({ reason: "refused" });
    // Shaft play is measured at the bench; nobody knows the last one.
    for (const code of ["F41", "F999"]) expect(await tellDraftCheck(actor, code, aForm({ [code]: "0.05" })), code).toEqual({ ok: false, reason: "unknown-check" });
    expect((await findDraft(actor.claimId))?.answers.checks).toBeUndefined();
    const filed = await aFiledClaim();
    expect(await tellDraftCheck(filed, "F12", aForm({ F12: "present" }))).toEqual({ ok: false, reason: "already-filed" });
    expect(await loadDraftAdvice(filed)).toBeNull();
  });

  test("changes the teller's own draft and nobody else's", async () => {
    const [mine, theirs] = [await aBegunDraft(), await aBegunDraft()];
    const before = await findDraft(theirs.claimId);
    await tellDraftCheck(mine, "F12", aForm({ F12: "present" }));
    expect(await findDraft(theirs.claimId)).toEqual(before);
  });
});

describe("a check that put it right before filing", () => {
  test("removes the draft with its photos, also one on its way, and leaves one line that names the check and nobody", async () => {
    const [actor, other] = [await aBegunDraft(), await aBegunDraft()];
    await attachPhoto(actor, await sharp({ create: { width: 60, height: 40, channels: 3, background: "#508050" } }).jpeg().toBuffer());
    const { storageKey } = await database().photo.findFirstOrThrow({ where: { claimId: actor.claimId } });
    const onItsWay = randomUUID();
    await receivePiece(actor, { uploadId: onItsWay, bytes: 2 * PIECE_BYTES, begin: 0, content: new Uint8Array(PIECE_BYTES) }, "192.0.2.7");
    const piece = pieceKey({ claimId: actor.claimId, id: onItsWay }, 0);
    const left = () => Promise.all([storageKey, `${storageKey}-small`, piece].map(async (key) => (await getObject(key)) !== null));
    expect(await left()).toEqual([true, true, true]);
    const lines = () => database().auditEntry.findMany({ where: { action: "clear_draft" } });
    const before = (await lines()).length;

    expect(await clearDraft(actor, "F12")).toEqual({ ok: true });
    expect(await findDraft(actor.claimId)).toBeNull();
    expect(await database().photo.count({ where: { claimId: actor.claimId } })).toBe(0);
    await removeDiscarded();
    expect(await left()).toEqual([false, false, false]);
    expect(await findDraft(other.claimId)).not.toBeNull();
    const kept = await lines();
    expect(kept).toHaveLength(before + 1);
    expect(kept.at(-1)).toMatchObject({ actorKind: "customer", claimId: null, detail: { check: "F12", kit: null } });
    expect(JSON.stringify(kept.map(({ detail }) => detail))).not.toContain(actor.reference);
  });

  test("happens once of two at a time, and not to a claim that is filed", async () => {
    const actor = await aBegunDraft();
    const cleared = await Promise.all([clearDraft(actor, "F12"), clearDraft(actor, null)]);
    expect(cleared.filter(({ ok }) => ok)).toHaveLength(1);
    expect(cleared).toContainEqual({ ok: false, reason: "already-filed" });
    const filed = await aFiledClaim();
    expect(await clearDraft(filed, "F12")).toEqual({ ok: false, reason: "already-filed" });
    expect(await database().claim.count({ where: { id: filed.claimId } })).toBe(1);
  });
});

describe("a check told on a filed claim", () => {
  let mine: CustomerActor;
  beforeEach(async () => {
    mine = await aFiledClaim();
  });

  test("is a finding that moves the ranking, the same twice once, and changed it takes the place of the first", async () => {
    const rankings = () => database().ranking.count({ where: { claimId: mine.claimId } });
    const before = await rankings();
    expect(await tellCheck(mine, "F53", aForm({ F53: "-2" }))).toEqual({ ok: true });
    expect(await tellCheck(mine, "F53", aForm({ F53: "-2" }))).toEqual({ ok: true });
    expect(await rankings()).toBe(before + 1);
    expect(await auditOf("tell_check", mine.claimId)).toHaveLength(1);
    expect(await tellCheck(mine, "F53", aForm({ F53: "3" }))).toEqual({ ok: true });
    expect(await standing(mine.claimId, "F53")).toMatchObject([{ measured: 3, observer: "customer" }]);
    expect(await rankings()).toBe(before + 2);
    expect((await loadMyClaim(mine))?.told.map(({ code }) => code)).toContain("F53");
  });

  test("of two at once both follow one another, and one finding stands", async () => {
    const told = await Promise.all(["2", "5"].map((F53) => tellCheck(mine, "F53", aForm({ F53 }))));
    expect(told).toEqual([{ ok: true }, { ok: true }]);
    expect(await standing(mine.claimId, "F53")).toHaveLength(1);
  });

  test("answers staff who have asked for it, and brings the claim back into review", async () => {
    await inTransaction(async (db) => {
      await db.checkRequest.create({ data: { claimId: mine.claimId, findingCode: "F53", askedById: personId } });
      await moveClaim(db, mine.claimId, "ask_for_check", { actor: { kind: "staff", personId } });
    });
    expect(await tellCheck(mine, "F53", aForm({ F53: "4" }))).toEqual({ ok: true });
    expect(await database().claim.findUniqueOrThrow({ where: { id: mine.claimId }, include: { checkRequests: true } })).toMatchObject({ stage: "in_review", checkRequests: [{ state: "answered" }] });
  });

  test("is refused at its field, when it is nobody's to make, on a draft, and once the claim has ended", async () => {
    expect(await tellCheck(mine, "F53", aForm({ F53: "steep" }))).toMatchObject({ reason: "refused", messages: { F53: expect.any(String) } });
    expect(await tellCheck(mine, "F41", aForm({ F41: "0.05" }))).toEqual({ ok: false, reason: "unknown-check" });
    const draft = await aBegunDraft();
    expect(await tellCheck(draft, "F12", aForm({ F12: "present" }))).toMatchObject({ ok: false });
    expect((await findDraft(draft.claimId))?.answers.checks).toBeUndefined();
    expect(await clearClaim(mine, "F12")).toEqual({ ok: true });
    expect(await tellCheck(mine, "F53", aForm({ F53: "4" }))).toEqual({ ok: false, reason: "not-legal-here" });
    expect(await standing(mine.claimId, "F53")).toEqual([]);
  });

  test("that put it right ends the claim as cleared, once, by the check's name, counted as a return avoided", async () => {
    const theirs = await aFiledClaim();
    const filter = deskFilterSchema.parse({ from: "2020-01", to: "2099-12" });
    const avoided = async () => {
      while ((await refreshReportCells()) !== 0);
      const loaded = await loadDeskQuality(await aStaffActor("support"), filter);
      if (!loaded.ok) throw new Error(loaded.reason);
      return loaded.quality.counts["returns-avoided"];
    };
    // Only a unit that was suspected could have come back for nothing.
    await database().$executeRaw`UPDATE ranking SET result = jsonb_set(result, '{unitDefective}', '0.9') WHERE claim_id = ${mine.claimId}::uuid`;
    const before = await avoided();
    const ended = await Promise.all([clearClaim(mine, "F12"), clearClaim(mine, "F12")]);
    expect(ended.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await auditOf("clear", mine.claimId)).toMatchObject([{ actorKind: "customer", detail: { check: "F12" } }]);
    expect(await database().claim.findUniqueOrThrow({ where: { id: theirs.claimId } })).toMatchObject({ stage: "filed" });
    expect(await avoided()).toBe(before + 1);
  });
});

describe("the units of a customer", () => {
  test("change on the customer's own claim, with one line however often they are chosen", async () => {
    const [mine, theirs] = [await aFiledClaim(), await aFiledClaim()];
    await Promise.all([changeUnits(mine, "imperial"), changeUnits(mine, "imperial")]);
    const units = async (actor: CustomerActor) => (await database().claim.findUniqueOrThrow({ where: { id: actor.claimId } })).units;
    expect([await units(mine), await units(theirs)]).toEqual(["imperial", "metric"]);
    expect(await auditOf("change_units", mine.claimId)).toMatchObject([{ actorKind: "customer", detail: { units: "imperial" } }]);
    await changeUnits(mine, "metric");
    expect(await units(mine)).toBe("metric");
    expect(await auditOf("change_units", mine.claimId)).toHaveLength(2);
  });

  test("change on a draft without a line, and leave what was typed as it was typed", async () => {
    const actor = await aBegunDraft();
    await tellDraftCheck(actor, "F53", aForm({ F53: "4" }));
    const before = (await findDraft(actor.claimId))?.answers;
    await changeUnits(actor, "imperial");
    expect((await findDraft(actor.claimId))?.answers).toEqual(before);
    expect(await auditOf("change_units", actor.claimId)).toEqual([]);
  });

  test("of a draft that was cleared are nobody's any more, and nothing is written", async () => {
    const actor = await aBegunDraft();
    await clearDraft(actor, null);
    await changeUnits(actor, "imperial");
    expect(await auditOf("change_units", actor.claimId)).toEqual([]);
  });
});
