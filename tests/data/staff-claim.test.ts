import { randomUUID } from "node:crypto";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import type { CustomerActor, StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findLatestRanking } from "@/lib/data/rankings";
import { CONFIRMED_AS_UNUSUAL } from "@/lib/domain/intake/unusual-number";
import { type VerdictInput, verdictSchema } from "@/lib/inputs/verdict";
import { answerCheck } from "@/lib/operations/answer-check";
import { askForCheck } from "@/lib/operations/ask-for-check";
import { attachPhoto } from "@/lib/operations/attach-photo";
import { bookSettlement } from "@/lib/operations/book-settlement";
import { confirmVerdict } from "@/lib/operations/confirm-verdict";
import { loadClaim } from "@/lib/operations/load-claim";
import { loadPhoto } from "@/lib/operations/load-photo";
import { loadReturnsOfClaim } from "@/lib/operations/load-returns";
import { loadSettlements } from "@/lib/operations/load-settlements";
import { openClaimLink } from "@/lib/operations/open-claim-link";
import { previewVerdict } from "@/lib/operations/preview-verdict";
import { recordFinding } from "@/lib/operations/record-finding";
import { reopenOnAppeal } from "@/lib/operations/reopen-on-appeal";
import { takeClaim } from "@/lib/operations/take-claim";
import { withdrawCheck } from "@/lib/operations/withdraw-check";
import { writeStaffMessage } from "@/lib/operations/write-staff-message";
import { aStaffActor } from "@/tests/builders/a-person";
import { aDraft, aFiledClaim, aForm, OWNER_ANSWERS } from "@/tests/builders/intake";

/** A check an owner can make. */
const ASKED = "F25";
const NO_WORDS = aForm({ note: "" });

const claimRow = (claimId: string) => database().claim.findUniqueOrThrow({ where: { id: claimId } });
const standing = (claimId: string) => database().verdict.findMany({ where: { claimId, supersededAt: null } });
const mailsOf = (claimId: string) => database().outgoingMail.findMany({ where: { claimId, onceKey: { not: { startsWith: "filed:" } } }, orderBy: { createdAt: "asc" } });
const actionsOf = async (claimId: string) => (await database().auditEntry.findMany({ where: { claimId }, orderBy: { id: "asc" } })).map(({ action }) => action);

/** A verdict as the form of the claim would post it now. */
async function aVerdict(claimId: string, given: Partial<Record<keyof VerdictInput, unknown>> = {}): Promise<VerdictInput> {
  const [{ version, leaderCause }, kept] = [await claimRow(claimId), await findLatestRanking(claimId)];
  return verdictSchema.parse({ primaryCause: leaderCause, origin: "fitter", basis: "customer_word", remedy: "advice", version, rankingId: kept?.id ?? "", ...given });
}

/** Decides a claim as somebody who reads the letter first. */
async function readAndConfirm(actor: StaffActor, claimId: string, verdict: VerdictInput) {
  const preview = await previewVerdict(actor, claimId, verdict);
  return preview.ok ? confirmVerdict(actor, claimId, { ...verdict, letterSeen: preview.fingerprint }) : preview;
}

describe("asking for a check", () => {
  test("moves the claim, keeps the promise, and mails a link that opens once", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    expect(await askForCheck(support, claimId, ASKED, aForm({ note: "From the side, please." }))).toEqual({ ok: true });
    expect(await claimRow(claimId)).toMatchObject({ stage: "awaiting_checks", firstAnswerAt: expect.any(Date) });
    const [mail, ...others] = await mailsOf(claimId);
    expect(others).toEqual([]);
    expect(mail?.text).toContain("From the side, please.");
    const link = new URL(mail?.text.match(/http\S+/)?.[0] ?? "");
    const reference = link.pathname.split("/")[2] ?? "";
    const key = link.searchParams.get("key") ?? "";
    expect((await openClaimLink(reference, key)).ok).toBe(true);
    expect((await openClaimLink(reference, key)).ok).toBe(false);
  });

  test("twice, even at once, is one request and one mail", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const asked = await Promise.all([askForCheck(support, claimId, ASKED, NO_WORDS), askForCheck(support, claimId, ASKED, NO_WORDS)]);
    expect(asked.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await askForCheck(support, claimId, ASKED, NO_WORDS)).toEqual({ ok: false, reason: "asked-already" });
    expect(await database().checkRequest.count({ where: { claimId } })).toBe(1);
    expect(await mailsOf(claimId)).toHaveLength(1);
  });

  test("of an owner is only what an owner can see", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    expect(await askForCheck(support, claimId, "F41", NO_WORDS)).toEqual({ ok: false, reason: "not-for-this-customer" });
    expect(await askForCheck(support, claimId, "F99", NO_WORDS)).toEqual({ ok: false, reason: "unknown-check" });
  });

  test("taken back leads the claim into review; a second time it is not open", async () => {
    const [actor, support] = [await aFiledClaim(), await aStaffActor("support")];
    const { claimId } = actor;
    await askForCheck(support, claimId, ASKED, NO_WORDS);
    const request = await database().checkRequest.findFirstOrThrow({ where: { claimId } });
    expect(await withdrawCheck(support, claimId, request.id)).toEqual({ ok: true });
    expect((await claimRow(claimId)).stage).toBe("in_review");
    expect(await withdrawCheck(support, claimId, request.id)).toEqual({ ok: false, reason: "not-open" });
    expect(await answerCheck(actor, request.id, aForm({ [ASKED]: "absent" }))).toEqual({ ok: false, reason: "not-open" });
  });

  test("of one claim is not taken back through another", async () => {
    const [{ claimId }, other, support] = [await aFiledClaim(), await aFiledClaim(), await aStaffActor("support")];
    await askForCheck(support, claimId, ASKED, NO_WORDS);
    const request = await database().checkRequest.findFirstOrThrow({ where: { claimId } });
    expect(await withdrawCheck(support, other.claimId, request.id)).toEqual({ ok: false, reason: "not-open" });
  });
});

describe("a finding kept by staff", () => {
  test("counts before the customer's word and moves the ranking", async () => {
    const [{ claimId }, bench] = [await aFiledClaim(), await aStaffActor("bench")];
    const before = await claimRow(claimId);
    expect(await recordFinding(bench, claimId, "F12", aForm({ F12: "absent", source: "photo", note: "From the side." }))).toEqual({ ok: true });
    const after = await claimRow(claimId);
    expect(before.leaderCause).toBe("C01");
    expect(after.leaderCause === "C01" ? after.leaderProbability : 0).toBeLessThan(before.leaderProbability ?? 0);
    expect(await database().finding.findFirst({ where: { claimId, code: "F12", observer: "technician" } })).toMatchObject({ personId: bench.personId, note: "seen on a photo: From the side." });
  });

  test("of the customer's telling stays the customer's, and the verdict does not rest on a technician", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const basis = async () => {
      const claim = await loadClaim(support, claimId);
      return claim.ok ? claim.proposed.basis : null;
    };
    expect(await recordFinding(support, claimId, "F12", aForm({ F12: "present", source: "customer" }))).toEqual({ ok: true });
    expect(await database().finding.findFirst({ where: { claimId, code: "F12", replacedAt: null } })).toMatchObject({ observer: "customer", personId: support.personId, note: "told to us" });
    expect(await basis()).toBe("customer_word");
    await recordFinding(support, claimId, "F12", aForm({ F12: "present", source: "photo" }));
    expect(await basis()).toBe("photo");
    await recordFinding(support, claimId, "F12", aForm({ F12: "present", source: "technician" }));
    expect(await basis()).toBe("technician");
  });

  test.each([
    ["F12", { F12: "present" }],
    ["F41", { F41: "0.3", source: "customer" }],
    ["F41", { F41: "0.3", source: "photo" }],
  ])("%s as %j is asked how it is known", async (code, values) => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    expect(await recordFinding(support, claimId, code, aForm(values))).toMatchObject({ ok: false, reason: "refused", messages: { source: expect.any(String) } });
  });

  test("with an unusual number is asked about, and kept once it is confirmed", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const record = (values: Record<string, string>) => recordFinding(support, claimId, "F41", aForm({ ...values, source: "technician" }));
    expect(await record({ F41: "-1", "F41-confirmed": "-1 mm" })).toMatchObject({ ok: false, reason: "refused", messages: { F41: expect.stringMatching(/negative/) } });
    expect(await record({ F41: "31" })).toMatchObject({ ok: false, reason: "refused", messages: { F41: expect.stringMatching(/unusual/) } });
    expect(await record({ F41: "31", "F41-confirmed": "31 mm" })).toEqual({ ok: true });
    expect(await database().finding.findFirst({ where: { claimId, code: "F41", replacedAt: null } })).toMatchObject({ measured: 31, note: expect.stringContaining(CONFIRMED_AS_UNUSUAL) });
  });

  test.each([
    ["F41", { F41: "loose" }],
    ["F41", { F41: "500" }],
    ["F12", { F12: "perhaps" }],
    ["F12", {}],
  ])("%s as %j comes back with a message", async (code, values) => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    expect(await recordFinding(support, claimId, code, aForm(values))).toMatchObject({ ok: false, reason: "refused", messages: { [code]: expect.any(String) } });
  });
});

describe("deciding a claim", () => {
  test("keeps the verdict, mails its letter once, and closes what was asked", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    await askForCheck(support, claimId, ASKED, NO_WORDS);
    const verdict = await aVerdict(claimId);
    const preview = await previewVerdict(support, claimId, verdict);
    expect(await readAndConfirm(support, claimId, verdict)).toMatchObject({ ok: true });
    const [kept, ...others] = await standing(claimId);
    expect(others).toEqual([]);
    expect(kept).toMatchObject({ primaryCause: "C01", attribution: "fit", origin: "fitter", way: "confirmed", decidedById: support.personId });
    expect(preview).toMatchObject({ ok: true, letter: kept?.letter });
    expect(await claimRow(claimId)).toMatchObject({ stage: "decided", decidedAt: expect.any(Date) });
    expect(await database().checkRequest.count({ where: { claimId, state: "open" } })).toBe(0);
    const letters = (await mailsOf(claimId)).filter(({ onceKey }) => onceKey.startsWith("verdict:"));
    expect(letters).toHaveLength(1);
    expect(await actionsOf(claimId)).toContain("decide");
  });

  test("by two people at once is decided by one; the other is told who", async () => {
    const [{ claimId }, first, second] = [await aFiledClaim(), await aStaffActor("support"), await aStaffActor("admin")];
    const [as, bs] = [await aVerdict(claimId), await aVerdict(claimId, { remedy: "goodwill" })];
    const results = await Promise.all([readAndConfirm(first, claimId, as), readAndConfirm(second, claimId, bs)]);
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    expect(results.find(({ ok }) => !ok)).toMatchObject({ reason: "decided-meanwhile", by: "Wren Calder", at: expect.any(Date) });
    expect(await standing(claimId)).toHaveLength(1);
    expect((await actionsOf(claimId)).filter((action) => action === "decide")).toHaveLength(1);
    expect((await mailsOf(claimId)).filter(({ onceKey }) => onceKey.startsWith("verdict:"))).toHaveLength(1);
  });

  test("by a ranking that has moved meanwhile is refused", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const verdict = await aVerdict(claimId);
    await recordFinding(support, claimId, "F12", aForm({ F12: "absent", source: "technician", note: "" }));
    expect(await readAndConfirm(support, claimId, verdict)).toEqual({ ok: false, reason: "ranked-meanwhile" });
    expect(await standing(claimId)).toEqual([]);
  });

  test("by a state that has changed meanwhile is refused", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const verdict = await aVerdict(claimId);
    await askForCheck(support, claimId, ASKED, NO_WORDS);
    expect(await readAndConfirm(support, claimId, verdict)).toEqual({ ok: false, reason: "changed-meanwhile" });
  });

  test("against the ranking needs a reason, and is kept as overruled", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const verdict = await aVerdict(claimId, { primaryCause: "C08", origin: "" });
    expect(await readAndConfirm(support, claimId, verdict)).toMatchObject({ ok: false, reason: "refused", messages: { reason: expect.any(String) } });
    expect(await readAndConfirm(support, claimId, { ...verdict, reason: "Blow-by was measured." })).toMatchObject({ ok: true });
    expect(await standing(claimId)).toMatchObject([{ way: "overruled", attribution: "engine", origin: null, reason: "Blow-by was measured." }]);
  });

  test("says where an open origin lies", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    expect(await readAndConfirm(support, claimId, await aVerdict(claimId, { origin: "" }))).toMatchObject({ ok: false, messages: { origin: expect.any(String) } });
    expect(await readAndConfirm(support, claimId, await aVerdict(claimId, { origin: "kit" }))).toMatchObject({ ok: true });
    expect(await standing(claimId)).toMatchObject([{ attribution: "kit", origin: "kit" }]);
  });

  test("does not replace a unit with drain or crankcase open, unless somebody says so and why", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const verdict = await aVerdict(claimId, { primaryCause: "C15", origin: "", remedy: "replacement", reason: "The ring was seen." });
    expect(await readAndConfirm(support, claimId, verdict)).toMatchObject({ ok: false, messages: { decidesAllTheSame: expect.any(String) } });
    expect(await readAndConfirm(support, claimId, { ...verdict, decidesAllTheSame: "yes" })).toMatchObject({ ok: true });
  });

  test("declines nothing without telling the customer why", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const verdict = await aVerdict(claimId, { remedy: "declined" });
    expect(await previewVerdict(support, claimId, verdict)).toMatchObject({ ok: false, messages: { explanation: expect.any(String) } });
    const why = "The drain hose lies level over the bracket.";
    expect(await previewVerdict(support, claimId, { ...verdict, explanation: why })).toMatchObject({ ok: true, letter: expect.stringContaining(why) });
  });

  test("sends no letter that was not read: a changed remedy shows the new one first", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const verdict = await aVerdict(claimId);
    const preview = await previewVerdict(support, claimId, verdict);
    const letterSeen = preview.ok ? preview.fingerprint : "";
    const changed = await confirmVerdict(support, claimId, { ...verdict, remedy: "goodwill", letterSeen });
    expect(changed).toMatchObject({ ok: false, reason: "letter-not-read", letter: expect.stringContaining("as a courtesy") });
    expect(await confirmVerdict(support, claimId, verdict)).toMatchObject({ ok: false, reason: "letter-not-read" });
    expect(await standing(claimId)).toEqual([]);
    expect(await mailsOf(claimId)).toEqual([]);
    if (changed.ok || changed.reason !== "letter-not-read") throw new Error("the letter was sent");
    expect(await confirmVerdict(support, claimId, { ...verdict, remedy: "goodwill", letterSeen: changed.fingerprint })).toMatchObject({ ok: true });
    expect(await standing(claimId)).toMatchObject([{ remedy: "goodwill", letter: changed.letter }]);
  });

  test("asks to leave the primary cause out of the contributing ones", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const refused = await previewVerdict(support, claimId, await aVerdict(claimId, { contributingCauses: ["C01", "C03"] }));
    expect(refused).toMatchObject({ ok: false, reason: "refused", messages: { contributingCauses: expect.any(String) } });
  });

  test.each([
    ["petrol", false],
    ["diesel", true],
  ])("with oil on the air side of a %s engine: the letter warns of running away: %s", async (fuel, warns) => {
    const onTheAirSide = OWNER_ANSWERS.flatMap(([screen, given]): (typeof OWNER_ANSWERS)[number][] => {
      if (screen === "vehicle") return [[screen, { ...given, fuel }]];
      if (screen === "oil") return [[screen, { place: "compressor", elsewhere: "unseen" }]];
      // An engine with oil on the air side alone is asked for its air filter instead.
      if (screen === "engine") return [["filter", { F34: "unknown" }], ["two-stage", { F37: "unknown" }]];
      return [[screen, given]];
    });
    const [{ claimId }, support] = [await aFiledClaim(onTheAirSide), await aStaffActor("support")];
    expect((await claimRow(claimId)).stopsEngine).toBe(warns);
    const preview = await previewVerdict(support, claimId, await aVerdict(claimId));
    expect(preview.ok && preview.letter.includes("run away")).toBe(warns);
  });

  test("is not possible with a cause that nobody knows", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    expect(await readAndConfirm(support, claimId, await aVerdict(claimId, { primaryCause: "C99" }))).toMatchObject({ ok: false, messages: { primaryCause: expect.any(String) } });
  });
});

test("an appeal opens the claim again; the old verdict stays to be read, and another can be given", async () => {
  const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
  expect(await reopenOnAppeal(support, claimId, { reason: "Too early." })).toMatchObject({ ok: false, reason: "not-legal-here" });
  await readAndConfirm(support, claimId, await aVerdict(claimId));
  expect(await reopenOnAppeal(support, claimId, { reason: "  " })).toMatchObject({ ok: false, reason: "refused" });
  expect(await reopenOnAppeal(support, claimId, { reason: "A photo shows the drain falling." })).toEqual({ ok: true });
  expect(await claimRow(claimId)).toMatchObject({ stage: "in_review", decidedAt: null });
  expect(await standing(claimId)).toEqual([]);
  expect(await readAndConfirm(await aStaffActor("support"), claimId, await aVerdict(claimId, { remedy: "goodwill", explanation: "The photo shows another place." }))).toMatchObject({ ok: true });
  expect(await database().verdict.count({ where: { claimId } })).toBe(2);
});

test("a claim taken up by two people at once is one's", async () => {
  const [{ claimId }, first, second] = [await aFiledClaim(), await aStaffActor("support"), await aStaffActor("support")];
  const taken = await Promise.all([first, second].map((actor) => takeClaim(actor, claimId, { from: null, to: actor.personId })));
  expect(taken.filter(({ ok }) => ok)).toHaveLength(1);
  expect((await claimRow(claimId)).stage).toBe("in_review");
});

describe("who reaches the customer about a claim that is in nobody's hand", () => {
  const holder = async (claimId: string) => (await claimRow(claimId)).assignedToId;

  test("has it in theirs from then on", async () => {
    const [first, second, support] = [await aFiledClaim(), await aFiledClaim(), await aStaffActor("support")];
    await writeStaffMessage(support, first.claimId, aForm({ body: "We look at it today." }));
    await askForCheck(support, second.claimId, ASKED, NO_WORDS);
    expect([await holder(first.claimId), await holder(second.claimId)]).toEqual([support.personId, support.personId]);
    expect((await claimRow(first.claimId)).stage).toBe("in_review");
    expect(await actionsOf(second.claimId)).toContain("hand_over");
  });

  test("takes it from nobody else, and none that has ended", async () => {
    const [{ claimId }, support, other] = [await aFiledClaim(), await aStaffActor("support"), await aStaffActor("support")];
    await takeClaim(other, claimId, { from: null, to: other.personId });
    await writeStaffMessage(support, claimId, aForm({ body: "Wren is away today." }));
    expect(await holder(claimId)).toBe(other.personId);
    await database().claim.update({ where: { id: claimId }, data: { stage: "withdrawn", assignedToId: null } });
    await writeStaffMessage(support, claimId, aForm({ body: "Thank you for telling us." }));
    expect(await holder(claimId)).toBeNull();
  });
});

test("a message is kept, mailed, and answers the customer", async () => {
  const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
  expect(await writeStaffMessage(support, claimId, aForm({ body: "   " }))).toMatchObject({ ok: false, messages: { body: expect.any(String) } });
  expect(await writeStaffMessage(support, claimId, aForm({ body: "Leave the engine off \u{1F6D1} <b>please</b>" }))).toEqual({ ok: true });
  const [mail] = await mailsOf(claimId);
  expect(mail?.html).toContain("&lt;b&gt;please&lt;/b&gt;");
  expect((await claimRow(claimId)).firstAnswerAt).not.toBeNull();
});

describe("the sheet of a claim", () => {
  /** All that the page is given. */
  async function toldTo(role: "support" | "product", { claimId }: CustomerActor): Promise<string> {
    const reader = await aStaffActor(role);
    const loaded = await Promise.all([loadClaim(reader, claimId), loadReturnsOfClaim(reader, claimId), loadSettlements(reader, claimId)]);
    for (const part of loaded) if (!part.ok) throw new Error(part.reason);
    return JSON.stringify(loaded);
  }

  test("tells a product manager the findings and nothing of the customer", async () => {
    const [actor, support] = [await aFiledClaim(), await aStaffActor("support")];
    await writeStaffMessage(support, actor.claimId, aForm({ body: "Dear Ada, thank you." }));
    await recordFinding(support, actor.claimId, "F16", aForm({ F16: "absent", source: "technician", note: "Ada told me on the telephone." }));
    await readAndConfirm(support, actor.claimId, await aVerdict(actor.claimId));
    const { version } = await claimRow(actor.claimId);
    expect(await bookSettlement(support, actor.claimId, { version, bookingKey: randomUUID(), kind: "goodwill", amount: "20", note: "As agreed with Ms \u00d6rnek." })).toMatchObject({ ok: true });
    const forProduct = await toldTo("product", actor);
    expect(forProduct).toContain("C01");
    for (const secret of ["Ada", "ada@example.com", "first drive", "Garage at the bridge", "Ms \u00d6rnek"]) {
      expect(await toldTo("support", actor)).toContain(secret);
      expect(forProduct).not.toContain(secret);
    }
  });

  test("is not found for a draft, nor for a number that nobody has", async () => {
    const [draft, support] = [await aDraft(), await aStaffActor("support")];
    for (const id of [draft.claimId, randomUUID()]) expect(await loadClaim(support, id)).toEqual({ ok: false, reason: "not-found" });
  });

  test("nor are the photos of a draft, before it is filed", async () => {
    const [draft, support] = [await aDraft(), await aStaffActor("support")];
    const attached = await attachPhoto(draft, await sharp({ create: { width: 20, height: 20, channels: 3, background: "#888" } }).jpeg().toBuffer());
    if (!attached.ok) throw new Error(attached.reason);
    expect(await loadPhoto(draft, draft.claimId, attached.photoId, "small")).toMatchObject({ ok: true });
    expect(await loadPhoto(support, draft.claimId, attached.photoId, "small")).toEqual({ ok: false, reason: "not-found" });
  });
});
