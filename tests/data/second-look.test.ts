import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findLatestRanking } from "@/lib/data/rankings";
import { loadSettings } from "@/lib/data/settings";
import { type VerdictInput, verdictSchema } from "@/lib/inputs/verdict";
import { confirmVerdict } from "@/lib/operations/confirm-verdict";
import { loadVerdictMatter } from "@/lib/operations/load-verdict-matter";
import { makeLetterFile } from "@/lib/operations/load-letter";
import { previewVerdict } from "@/lib/operations/preview-verdict";
import { recordFinding } from "@/lib/operations/record-finding";
import { reopenOnAppeal } from "@/lib/operations/reopen-on-appeal";
import { approveVerdict, sendBackVerdict, takeBackVerdict } from "@/lib/operations/second-look";
import { loadQueue } from "@/lib/operations/load-queue";
import { readQueueFilter } from "@/lib/inputs/queue-filter";
import { aStaffActor } from "../builders/a-person";
import { aFiledClaim, aForm } from "../builders/intake";

let iris: StaffActor;
let jonah: StaffActor;
let admin: StaffActor;
beforeAll(async () => {
  [iris, jonah, admin] = [await aStaffActor("support"), await aStaffActor("support"), await aStaffActor("admin")];
});

const claimOf = (id: string) => database().claim.findUniqueOrThrow({ where: { id } });
const mailsOf = (claimId: string) => database().outgoingMail.count({ where: { claimId, onceKey: { startsWith: "verdict:" } } });

/** A verdict of this person on the leader of the ranking, its letter read. */
async function decides(actor: StaffActor, claimId: string, changes: Partial<Record<keyof VerdictInput, unknown>> = {}) {
  const [{ version, leaderCause }, kept] = [await claimOf(claimId), await findLatestRanking(claimId)];
  const input = verdictSchema.parse({ primaryCause: leaderCause, origin: "fitter", basis: "customer_word", remedy: "refund", promised: "890", version, rankingId: kept?.id, explanation: "We looked twice.", reason: "Seen.", ...changes });
  const preview = await previewVerdict(actor, claimId, input);
  return preview.ok ? confirmVerdict(actor, claimId, { ...input, letterSeen: preview.fingerprint }) : preview;
}

/** A claim whose verdict waits. */
async function waiting(): Promise<{ claimId: string; proposalId: string }> {
  const { claimId } = await aFiledClaim();
  const proposed = await decides(iris, claimId);
  if (!proposed.ok || !("proposalId" in proposed)) throw new Error(`a verdict above the value waits: ${JSON.stringify(proposed)}`);
  return { claimId, proposalId: proposed.proposalId };
}

describe("a verdict above the set value", () => {
  test("waits, and the customer hears nothing; at the value it is given", async () => {
    const { claimId } = await waiting();
    expect(await claimOf(claimId)).toMatchObject({ stage: "in_review", decidedAt: null, assignedToId: iris.personId });
    expect(await database().verdict.count({ where: { claimId } })).toBe(0);
    expect(await mailsOf(claimId)).toBe(0);
    expect(await loadVerdictMatter(jonah, claimId)).toMatchObject({ waiting: { grounds: ["above_value"], isOwn: false, isOutdated: false } });
    // Who may not see the customer learns that it waits, and reads neither letter nor reason.
    const product = await loadVerdictMatter(await aStaffActor("product"), claimId);
    expect(product).toMatchObject({ waiting: { letter: "", explanation: "", reason: "" }, mayLook: false });
    const { secondPersonAbove } = await loadSettings();
    const cheap = await aFiledClaim();
    expect(await decides(iris, cheap.claimId, { promised: String(secondPersonAbove) })).toMatchObject({ ok: true, verdictId: expect.any(String) });
    // Of a courtesy only what the seller bears counts.
    const shared = await aFiledClaim();
    expect(await decides(iris, shared.claimId, { remedy: "goodwill", promised: String(2 * secondPersonAbove), sellerPercent: "50" })).toMatchObject({ ok: true, verdictId: expect.any(String) });
  });

  test("is told in the queue, to the other with the proposer's name", async () => {
    const { claimId } = await waiting();
    const told = async (actor: StaffActor) => {
      const queue = await loadQueue(actor, readQueueFilter({ mark: "second_look" }));
      return queue.ok ? queue.rows.find(({ id }) => id === claimId)?.secondLook : null;
    };
    expect(await told(jonah)).toMatch(/^waits for a second pair of eyes: .* proposed a verdict$/);
    expect(await told(iris)).toBe("your verdict waits for a second pair of eyes");
  });

  test("is approved by another person: it stands as proposed, and one letter goes out", async () => {
    const { claimId, proposalId } = await waiting();
    expect(await approveVerdict(iris, claimId, proposalId)).toEqual({ ok: false, reason: "own-verdict" });
    expect(await sendBackVerdict(iris, claimId, proposalId, { note: "x" })).toEqual({ ok: false, reason: "own-verdict" });
    expect(await approveVerdict(jonah, claimId, proposalId)).toEqual({ ok: true });
    expect(await database().verdict.findFirstOrThrow({ where: { claimId } })).toMatchObject({ decidedById: iris.personId, approvedById: jonah.personId, approvedAt: expect.any(Date), remedy: "refund", promisedMinor: 89_000, letter: expect.stringContaining("890.00") });
    expect(await mailsOf(claimId)).toBe(1);
    const file = await makeLetterFile(jonah, claimId);
    expect(file.ok && file.pdf.subarray(0, 5).toString()).toBe("%PDF-");
  });

  test("is approved once of two at once, and not both approved and sent back", async () => {
    const [first, second] = [await waiting(), await waiting()];
    const approved = await Promise.all([jonah, admin].map((actor) => approveVerdict(actor, first.claimId, first.proposalId)));
    expect(approved.map(({ ok }) => ok).sort()).toEqual([false, true]);
    expect(approved.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "not-waiting" });
    const mixed = await Promise.all([approveVerdict(jonah, second.claimId, second.proposalId), sendBackVerdict(admin, second.claimId, second.proposalId, { note: "The bore is not measured." })]);
    expect(mixed.filter(({ ok }) => ok)).toHaveLength(1);
    expect((await mailsOf(first.claimId)) + (await mailsOf(second.claimId))).toBe(mixed[0]?.ok ? 2 : 1);
  });

  test("sent back says why, and can be proposed again; taken back it is gone", async () => {
    const { claimId, proposalId } = await waiting();
    expect(await sendBackVerdict(jonah, claimId, proposalId, { note: " " })).toMatchObject({ ok: false, reason: "refused" });
    expect(await sendBackVerdict(jonah, claimId, proposalId, { note: "The bore is not measured." })).toEqual({ ok: true });
    expect(await loadVerdictMatter(iris, claimId)).toMatchObject({ waiting: null, sentBack: { note: "The bore is not measured." } });
    const again = await decides(iris, claimId);
    if (!again.ok || !("proposalId" in again)) throw new Error("it waits again");
    expect(await decides(jonah, claimId)).toMatchObject({ ok: false, reason: "waits-already" });
    expect(await takeBackVerdict(iris, claimId, again.proposalId)).toEqual({ ok: true });
    expect(await approveVerdict(jonah, claimId, again.proposalId)).toEqual({ ok: false, reason: "not-waiting" });
    expect(await mailsOf(claimId)).toBe(0);
  });

  test("is not approved once something new was found, nor for another claim", async () => {
    const { claimId, proposalId } = await waiting();
    const other = await aFiledClaim();
    expect(await approveVerdict(jonah, other.claimId, proposalId)).toEqual({ ok: false, reason: "not-waiting" });
    expect(await recordFinding(jonah, claimId, "F17", aForm({ F17: "present", source: "technician" }))).toEqual({ ok: true });
    expect(await approveVerdict(jonah, claimId, proposalId)).toEqual({ ok: false, reason: "ranked-since" });
    expect(await approveVerdict(jonah, randomUUID(), proposalId)).toEqual({ ok: false, reason: "not-waiting" });
  });

  test("is proposed once of two who decide at once", async () => {
    const { claimId } = await aFiledClaim();
    const both = await Promise.all([iris, jonah].map((actor) => decides(actor, claimId)));
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await database().verdictProposal.count({ where: { claimId, state: "waiting" } })).toBe(1);
  });
});

describe("an objection", () => {
  test("goes to another than who decided, and the next letter answers it", async () => {
    const { claimId } = await aFiledClaim();
    expect(await decides(iris, claimId, { remedy: "advice", promised: "" })).toMatchObject({ ok: true });
    await database().claim.update({ where: { id: claimId }, data: { assignedToId: iris.personId } });
    expect(await reopenOnAppeal(jonah, claimId, { reason: "The garage says the fitting is fine." })).toEqual({ ok: true });
    expect((await claimOf(claimId)).assignedToId).toBeNull();
    expect(await decides(iris, claimId, { remedy: "advice", promised: "" })).toEqual({ ok: false, reason: "decided-before" });
    expect(await decides(jonah, claimId, { remedy: "advice", promised: "", explanation: "" })).toMatchObject({ ok: false, messages: { explanation: expect.stringContaining("Answer") } });
    expect(await decides(jonah, claimId, { remedy: "advice", promised: "", explanation: "The photo shows a level run." })).toMatchObject({ ok: true });
    const standing = await database().verdict.findFirstOrThrow({ where: { claimId, supersededAt: null } });
    expect(standing.letter).toMatch(/The garage says the fitting is fine\.\n\nOur answer:\nThe photo shows a level run\./);
  });

  test("may be answered by an administrator who decided before", async () => {
    const { claimId } = await aFiledClaim();
    await decides(admin, claimId, { remedy: "advice", promised: "" });
    await reopenOnAppeal(jonah, claimId, { reason: "It still leaks." });
    expect(await loadVerdictMatter(admin, claimId)).toMatchObject({ mayDecideAgain: true, objection: { words: "It still leaks." } });
    expect(await decides(admin, claimId, { remedy: "advice", promised: "" })).toMatchObject({ ok: true });
  });
});
