import { randomUUID } from "node:crypto";
import { beforeAll, beforeEach, describe, expect, test } from "vitest";
import sharp from "sharp";
import type { CustomerActor } from "@/lib/access/actors";
import { customerByKey } from "@/lib/access/customer";
import { hashSecret } from "@/lib/access/secrets";
import { database, inTransaction } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import { insertPhoto } from "@/lib/data/photos";
import { MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { CONFIRMED_AS_UNUSUAL } from "@/lib/domain/intake/unusual-number";
import { putObject } from "@/lib/files/store";
import { appealVerdict } from "@/lib/operations/appeal-verdict";
import { answerCheck } from "@/lib/operations/answer-check";
import { authoriseReturn } from "@/lib/operations/authorise-return";
import { attachPhoto } from "@/lib/operations/attach-photo";
import { clearClaim } from "@/lib/operations/clear-claim";
import { loadMyReturn } from "@/lib/operations/load-my-return";
import { loadMyClaim } from "@/lib/operations/load-my-claim";
import { loadMyPhotos, loadPhoto } from "@/lib/operations/load-photo";
import { openClaimLink } from "@/lib/operations/open-claim-link";
import { removePhoto } from "@/lib/operations/remove-photo";
import { requestClaimLink } from "@/lib/operations/request-claim-link";
import { withdrawClaim } from "@/lib/operations/withdraw-claim";
import { writeCustomerMessage } from "@/lib/operations/write-customer-message";
import { aStaffActor } from "../builders/a-person";
import { OWNER_ANSWERS, aDraft, aFiledClaim, aForm } from "../builders/intake";

let personId: string;
let mine: CustomerActor;
let theirs: CustomerActor;

beforeAll(async () => {
  personId = (await database().person.create({ data: { email: "iris@example.com", name: "Iris", role: "support" } })).id;
  theirs = await aFiledClaim();
});

beforeEach(async () => {
  mine = await aFiledClaim();
});

/** Staff ask for a check: the request row and the move, as their operation makes them. */
async function askedCheck(actor: CustomerActor, findingCode: string): Promise<string> {
  return inTransaction(async (db) => {
    const { id } = await db.checkRequest.create({ data: { claimId: actor.claimId, findingCode, askedById: personId } });
    await moveClaim(db, actor.claimId, "ask_for_check", { actor: { kind: "staff", personId } });
    return id;
  });
}

const stageOf = async (actor: CustomerActor) => (await database().claim.findUniqueOrThrow({ where: { id: actor.claimId } })).stage;
const aPhoto = (red: number) => sharp({ create: { width: 60, height: 40, channels: 3, background: { r: red, g: 80, b: 80 } } }).withExif({ IFD3: { GPSLatitude: "52/1 30/1 0/1" } }).jpeg().toBuffer();

describe("the private page", () => {
  test("shows the customer's own claim and nothing of a draft", async () => {
    const shown = await loadMyClaim(mine);
    expect(shown?.claim.reference).toBe(mine.reference);
    expect(shown?.advice?.account.headline).toMatch(/drain/);
    expect(shown?.stop).not.toBeNull();
    expect(shown?.told.find(({ code }) => code === "F12")?.answer).toMatch(/level/);
    expect(shown?.claim).not.toHaveProperty("unitProbability");
    expect(await loadMyClaim(await aDraft())).toBeNull();
  });

  test("says how to send the unit in, in the words of the mail", async () => {
    expect(await loadMyReturn(mine)).toBeNull();
    const { version } = await database().claim.findUniqueOrThrow({ where: { id: mine.claimId } });
    await authoriseReturn(await aStaffActor("support"), mine.claimId, { version, note: "" });
    const { text } = await database().outgoingMail.findFirstOrThrow({ where: { claimId: mine.claimId, onceKey: { startsWith: "return:" } } });
    const shown = await loadMyReturn(mine);
    expect(shown?.steps.length).toBeGreaterThan(0);
    for (const paragraph of [shown?.number ?? "none", shown?.whereTo ?? "nowhere", ...(shown?.steps ?? [])]) expect(text).toContain(paragraph);
  });

  test("of a petrol engine warns of oil on hot parts and of no run-away, as the receipt does", async () => {
    // In both sides, so that two more questions are asked.
    const askedToo = [["filter", { F34: "unknown" }], ["two-stage", { F37: "unknown" }]] as const;
    const changed = new Map<string, Readonly<Record<string, string>>>([["vehicle", { vehicle: "other", words: "Corvast Lorrel 2.0", fuel: "petrol" }], ["oil", { place: "both" }]]);
    const petrol = await aFiledClaim(
      OWNER_ANSWERS.flatMap(([screen, values]) => [[screen, changed.get(screen) ?? values] as const, ...(screen === "vent" ? askedToo : [])]),
    );
    const shown = await loadMyClaim(petrol);
    expect(shown?.stop?.title).toMatch(/hot/);
    expect(shown?.advice?.checks.flatMap(({ cautions }) => cautions)).not.toContain("S1");
    expect(await database().outgoingMail.findFirstOrThrow({ where: { onceKey: `filed:${petrol.claimId}` } })).toMatchObject({ text: expect.stringContaining("Do not run the engine") });
    expect(await database().claim.findUniqueOrThrow({ where: { id: petrol.claimId } })).toMatchObject({ stopsEngine: true });
  });

  test("opens with the mailed link once, under its own reference only", async () => {
    const mail = await database().outgoingMail.findFirstOrThrow({ where: { onceKey: `filed:${mine.claimId}` } });
    const key = new URL(mail.text.match(/http\S+/)?.[0] ?? "").searchParams.get("key") ?? "";
    expect(await openClaimLink(theirs.reference, key)).toEqual({ ok: false, reason: "link-spent" });
    const opened = await Promise.all([openClaimLink(mine.reference, key), openClaimLink(mine.reference, key)]);
    const won = opened.filter((one) => one.ok);
    expect(won).toHaveLength(1);
    expect(won[0]?.ok && (await customerByKey(won[0].key))?.claimId).toBe(mine.claimId);
  });

  test("a new link goes to the right address only, and the answer tells nothing", async () => {
    const mails = () => database().outgoingMail.count({ where: { claimId: mine.claimId } });
    const ask = (reference: string, email: string) => requestClaimLink(aForm({ reference, email }), randomUUID(), "en");
    expect(await ask(mine.reference, "eve@example.com")).toEqual({ ok: true });
    expect(await ask("K7MP-4Q2-HXW", "ada@example.com")).toEqual({ ok: true });
    expect(await mails()).toBe(1);
    expect(await ask(mine.reference.toLowerCase().replaceAll("-", " "), "ADA@example.com")).toEqual({ ok: true });
    expect(await mails()).toBe(2);
    expect(await ask("", "ada")).toMatchObject({ ok: false, reason: "refused" });
  });
});

describe("a check that was asked for", () => {
  test("moves the ranking, and with the last answer the claim goes back into review", async () => {
    const [first, second] = [await askedCheck(mine, "F09"), await askedCheck(mine, "F13")];
    expect((await loadMyClaim(mine))?.asked).toHaveLength(2);
    expect(await answerCheck(mine, first, aForm({ F09: "by-hand" }))).toEqual({ ok: true });
    expect(await stageOf(mine)).toBe("awaiting_checks");
    expect(await answerCheck(mine, second, aForm({ F13: "0,5", "F13-unit": "in" }))).toEqual({ ok: true });
    expect(await stageOf(mine)).toBe("in_review");
    expect(await database().ranking.count({ where: { claimId: mine.claimId } })).toBe(3);
    const bore = await database().finding.findFirstOrThrow({ where: { claimId: mine.claimId, code: "F13" } });
    expect(bore).toMatchObject({ measured: 12.7, typedValue: "0,5", typedUnit: "in" });
  });

  test("\u201cI can\u2019t tell\u201d closes it without a finding", async () => {
    const request = await askedCheck(mine, "F13");
    expect(await answerCheck(mine, request, aForm({ cannotTell: "yes" }))).toEqual({ ok: true });
    expect(await database().checkRequest.findUniqueOrThrow({ where: { id: request } })).toMatchObject({ state: "answered", findingId: null });
    expect(await stageOf(mine)).toBe("in_review");
  });

  test("refuses what is no answer, and is answered once of two at a time", async () => {
    const request = await askedCheck(mine, "F13");
    expect(await answerCheck(mine, request, aForm({ F13: "" }))).toMatchObject({ reason: "refused" });
    expect(await answerCheck(mine, request, aForm({ F13: "wide" }))).toMatchObject({ reason: "refused", messages: { F13: expect.any(String) } });
    const answers = await Promise.all([answerCheck(mine, request, aForm({ F13: "12" })), answerCheck(mine, request, aForm({ F13: "13" }))]);
    expect(answers.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await database().finding.count({ where: { claimId: mine.claimId, code: "F13", replacedAt: null } })).toBe(1);
  });

  test("asks about an unusual number at its field, and keeps it once it is confirmed", async () => {
    const request = await askedCheck(mine, "F13");
    expect(await answerCheck(mine, request, aForm({ F13: "-12", "F13-confirmed": "-12 mm" }))).toMatchObject({ reason: "refused", messages: { F13: expect.stringMatching(/negative/) } });
    expect(await answerCheck(mine, request, aForm({ F13: "127" }))).toMatchObject({ reason: "refused", messages: { F13: expect.stringMatching(/12\.7 mm/) } });
    expect(await answerCheck(mine, request, aForm({ F13: "127", "F13-confirmed": "127 mm" }))).toEqual({ ok: true });
    expect(await database().finding.findFirst({ where: { claimId: mine.claimId, code: "F13", replacedAt: null } })).toMatchObject({ measured: 127, typedValue: "127", note: CONFIRMED_AS_UNUSUAL });
  });

  test("of another claim is not there", async () => {
    const request = await askedCheck(theirs, "F13");
    expect(await answerCheck(mine, request, aForm({ F13: "12" }))).toEqual({ ok: false, reason: "not-open" });
    expect(await answerCheck(mine, randomUUID(), aForm({ F13: "12" }))).toEqual({ ok: false, reason: "not-open" });
    await answerCheck(theirs, request, aForm({ cannotTell: "yes" }));
  });
});

describe("messages", () => {
  test("are kept on the customer's own claim, the same twice once", async () => {
    expect(await writeCustomerMessage(mine, aForm({ body: "Still dripping \ud83d\ude22" }))).toEqual({ ok: true });
    expect(await writeCustomerMessage(mine, aForm({ body: "Still dripping \ud83d\ude22" }))).toEqual({ ok: true });
    expect((await loadMyClaim(mine))?.claim.messages.map(({ body }) => body)).toEqual(["Still dripping \ud83d\ude22"]);
    expect((await loadMyClaim(theirs))?.claim.messages).toEqual([]);
  });

  test("are refused empty, too long, or on a draft", async () => {
    expect(await writeCustomerMessage(mine, aForm({ body: "  " }))).toMatchObject({ reason: "refused" });
    expect(await writeCustomerMessage(mine, aForm({ body: "a".repeat(10_000) }))).toMatchObject({ reason: "refused" });
    expect(await writeCustomerMessage(await aDraft(), aForm({ body: "Hello" }))).toEqual({ ok: false, reason: "not-filed" });
  });
});

describe("an appeal", () => {
  const objection = aForm({ reason: "The drain falls all the way; see the photo." });

  async function decided(actor: CustomerActor): Promise<void> {
    await inTransaction((db) => moveClaim(db, actor.claimId, "decide", { actor: { kind: "staff", personId } }, { changes: { decidedAt: new Date(), firstAnswerAt: new Date() } }));
    await database().verdict.create({
      data: { claimId: actor.claimId, primaryCause: "C06", contributingCauses: [], attribution: "fit", way: "confirmed", basis: "customer_word", remedy: "advice", letter: "Dear Ada", decidedById: personId },
    });
  }

  test("takes the claim back into review with its reason and a new promise, once of two at a time", async () => {
    await decided(mine);
    const appeals = await Promise.all([appealVerdict(mine, objection), appealVerdict(mine, objection)]);
    expect(appeals.filter(({ ok }) => ok)).toHaveLength(1);
    expect(appeals).toContainEqual({ ok: false, reason: "not-decided" });

    const claim = await database().claim.findUniqueOrThrow({ where: { id: mine.claimId }, include: { verdicts: true, messages: true, auditEntries: { where: { action: "appeal" } } } });
    expect(claim).toMatchObject({ stage: "in_review", decidedAt: null, settledAt: null, firstAnswerAt: null });
    expect(claim.promisedAt?.getTime()).toBeGreaterThan(Date.now());
    expect(claim.verdicts).toMatchObject([{ supersededAt: expect.any(Date) }]);
    expect(claim.messages).toMatchObject([{ from: "customer", body: "The drain falls all the way; see the photo." }]);
    expect(claim.auditEntries).toMatchObject([{ actorKind: "customer" }]);
  });

  test("is refused without a reason, and leaves the verdict", async () => {
    await decided(mine);
    expect(await appealVerdict(mine, aForm({ reason: " " }))).toEqual({ ok: false, reason: "refused", messages: { reason: "Say why you see it otherwise" } });
    expect(await stageOf(mine)).toBe("decided");
  });

  test("is refused on a claim that is not decided, and nothing is written", async () => {
    expect(await appealVerdict(mine, objection)).toEqual({ ok: false, reason: "not-decided" });
    expect(await appealVerdict(await aDraft(), objection)).toEqual({ ok: false, reason: "not-decided" });
    expect(await database().message.count({ where: { claimId: mine.claimId } })).toBe(0);
  });
});

describe("ending it", () => {
  test("cleared or withdrawn by the customer, once, and open checks with it", async () => {
    const request = await askedCheck(mine, "F13");
    expect(await clearClaim(mine)).toEqual({ ok: true });
    expect(await stageOf(mine)).toBe("cleared");
    expect(await database().checkRequest.findUniqueOrThrow({ where: { id: request } })).toMatchObject({ state: "withdrawn" });
    expect(await withdrawClaim(mine)).toEqual({ ok: false, reason: "not-legal-here" });
    expect(await answerCheck(mine, request, aForm({ F13: "12" }))).toEqual({ ok: false, reason: "not-open" });
  });

  test("is refused on a draft", async () => {
    expect(await withdrawClaim(await aDraft())).toEqual({ ok: false, reason: "not-legal-here" });
  });
});

describe("photos", () => {
  test("are encoded anew without a place, kept once, and shown to nobody else", async () => {
    const bytes = await aPhoto(10);
    const [first, again] = [await attachPhoto(mine, bytes), await attachPhoto(mine, bytes)];
    expect(again).toEqual(first);
    const photoId = first.ok ? first.photoId : "";
    const kept = await loadPhoto(mine, mine.claimId, photoId, "full");
    const metadata = await sharp(kept.ok && kept.jpeg ? kept.jpeg : Buffer.alloc(0)).metadata();
    expect(metadata).toMatchObject({ format: "jpeg", width: 60, height: 40 });
    expect(metadata.exif).toBeUndefined();
    expect(await loadPhoto(mine, mine.claimId, photoId, "full", true)).toEqual({ ok: true, jpeg: null });
    for (const isHeld of [false, true]) expect(await loadPhoto(theirs, mine.claimId, photoId, "full", isHeld)).toEqual({ ok: false, reason: "not-found" });
    expect(await loadPhoto(theirs, theirs.claimId, photoId, "small")).toEqual({ ok: false, reason: "not-found" });
  });

  test("of a telephone that writes HEIC are read too, and one that only looks like it is damaged", async () => {
    const attached = await attachPhoto(mine, Buffer.from(HEIC_64_BY_48, "base64"));
    expect((await loadMyPhotos(mine)).find(({ id }) => attached.ok && id === attached.photoId)).toMatchObject({ width: 64, height: 48 });
    expect(await attachPhoto(mine, Buffer.from(HEIC_64_BY_48, "base64").subarray(0, 300))).toEqual({ ok: false, reason: "damaged" });
  });

  test("that the bench took are the house's until one goes with a letter", async () => {
    const ofBench = async () => {
      const storageKey = `claims/${mine.claimId}/${randomUUID()}`;
      await putObject(storageKey, await aPhoto(21), "image/jpeg");
      return (await insertPhoto(database(), { claimId: mine.claimId, subject: "unit", storageKey, width: 1, height: 1, bytes: 1, sha256: hashSecret(storageKey), takenBy: "bench" })).id;
    };
    const [kept, chosen] = [await ofBench(), await ofBench()];
    const own = await attachPhoto(mine, await aPhoto(22));
    await database().claim.update({ where: { id: mine.claimId }, data: { stage: "decided", decidedAt: new Date() } });
    await database().verdict.create({ data: { claimId: mine.claimId, primaryCause: "C16", contributingCauses: [], attribution: "unit", way: "confirmed", basis: "bench", remedy: "refund", letter: "Dear Ada", letterPhotos: [chosen], decidedById: personId } });
    const shown = await loadMyClaim(mine);
    expect(shown?.claim.photos.map(({ id }) => id)).toEqual([own.ok && own.photoId]);
    expect(shown?.claim.verdicts[0]?.letterPhotos).toEqual([chosen]);
    expect(await loadPhoto(mine, mine.claimId, chosen, "full")).toMatchObject({ ok: true });
    expect(await loadPhoto(mine, mine.claimId, kept, "full")).toEqual({ ok: false, reason: "not-found" });
  });

  test("of a draft may be removed by its owner; a filed one stays", async () => {
    const draft = await aDraft();
    const attached = await attachPhoto(draft, await aPhoto(20));
    const photoId = attached.ok ? attached.photoId : "";
    expect(await removePhoto(await aDraft(), photoId)).toEqual({ ok: false, reason: "not-found" });
    expect(await removePhoto(draft, photoId)).toEqual({ ok: true });
    expect(await loadMyPhotos(draft)).toEqual([]);
    const filed = await attachPhoto(mine, await aPhoto(30));
    expect(await removePhoto(mine, filed.ok ? filed.photoId : "")).toEqual({ ok: false, reason: "already-filed" });
  });

  test("taken off while the claim is filed stays: it is evidence by then", async () => {
    const draft = await aDraft();
    const { id } = await insertPhoto(database(), { claimId: draft.claimId, subject: "other", storageKey: randomUUID(), width: 1, height: 1, bytes: 1, sha256: "0".repeat(64), takenBy: "customer" });
    const now = new Date();
    const removal = await inTransaction(async (db) => {
      await moveClaim(db, draft.claimId, "file", { actor: { kind: "customer" } }, { changes: { filedBy: "customer", contactName: "Ada", contactEmail: "ada@example.com", filedAt: now, promisedAt: now } });
      const begun = removePhoto(draft, id);
      await new Promise((resolve) => setTimeout(resolve, 300));
      return { begun };
    });
    expect(await removal.begun).toEqual({ ok: false, reason: "already-filed" });
    expect(await database().photo.count({ where: { id } })).toBe(1);
  });

  test("are refused when they are none, empty, damaged, huge when unfolded, or too many", async () => {
    const attach = (bytes: Uint8Array) => attachPhoto(mine, bytes);
    expect(await attach(new Uint8Array())).toEqual({ ok: false, reason: "empty" });
    expect(await attach(new TextEncoder().encode("%PDF-1.7\n%\u00e2\u00e3\n1 0 obj"))).toEqual({ ok: false, reason: "not-a-photo" });
    expect(await attach((await aPhoto(40)).subarray(0, 200))).toEqual({ ok: false, reason: "damaged" });
    const bomb = await sharp({ create: { width: 9000, height: 9000, channels: 3, background: "#fff" } }).png({ compressionLevel: 9 }).toBuffer();
    expect(await attach(bomb)).toEqual({ ok: false, reason: "too-many-pixels" });
    for (let count = 0; count < MOST_PHOTOS; count++) expect(await attach(await aPhoto(100 + 10 * count))).toMatchObject({ ok: true });
    expect(await attach(await aPhoto(250))).toEqual({ ok: false, reason: "too-many-photos" });
  });
});

/** A green picture of 64 by 48, made with heif-enc of libheif 1.15.1. */
const HEIC_64_BY_48 =
  "AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAa1tZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAAAA5waXRtAAAAAAACAAAAEGlkYXQAAAAAAEAAMAAAADhpbG9jAQAAAERAAAIAAQAAAAAAAAHRAAEAAAAAAAAAGQACAAEAAAAAAAAAAQAAAAAAAAAIAAAAOGlpbmYAAAAAAAIAAAAVaW5mZQIAAAEAAQAAaHZjMQAAAAAVaW5mZQIAAAAAAgAAZ3JpZAAAAADYaXBycAAAALZpcGNvAAAAdmh2Y0MBA3AAAAAAAAAAAAAe8AD8/fj4AAAPAyAAAQAYQAEMAf//A3AAAAMAkAAAAwAAAwAeugJAIQABACpCAQEDcAAAAwCQAAADAAADAB6gIIEFlurkprm4EBAwIAAAAwAgAAADACEiAAEABkQBwXPAiQAAABRpc3BlAAAAAAAAAEAAAABAAAAAFGlzcGUAAAAAAAAAQAAAADAAAAAQcGl4aQAAAAADCAgIAAAAGmlwbWEAAAAAAAAAAgABAoECAAICA4QAAAAaaXJlZgAAAAAAAAAOZGltZwACAAEAAQAAACFtZGF0AAAAFSgBrxmA70mlvtI1n+6hv8brWmPm4A==";
