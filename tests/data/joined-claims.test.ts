import { describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database, inTransaction } from "@/lib/data/client";
import { listFindings, listObservations } from "@/lib/data/findings";
import { readQueueFilter } from "@/lib/inputs/queue-filter";
import { linkClaims, unlinkClaims } from "@/lib/operations/link-claims";
import { loadClaim, type StaffClaim } from "@/lib/operations/load-claim";
import { loadCustomerHistory } from "@/lib/operations/load-customer-history";
import { loadJoinedClaims } from "@/lib/operations/load-joined-claims";
import { loadMyClaim } from "@/lib/operations/load-my-claim";
import { loadQueue } from "@/lib/operations/load-queue";
import { mergeClaim, takeApart } from "@/lib/operations/merge-claims";
import { namePairUnit } from "@/lib/operations/name-pair-unit";
import { noteSameUnit } from "@/lib/operations/note-same-unit";
import { recordFinding } from "@/lib/operations/record-finding";
import { writeStaffMessage } from "@/lib/operations/write-staff-message";
import { aStaffActor } from "@/tests/builders/a-person";
import { aFiledClaim, aForm, OWNER_ANSWERS } from "@/tests/builders/intake";

const row = (claimId: string) => database().claim.findUniqueOrThrow({ where: { id: claimId } });
const actionsOf = async (claimId: string) => (await database().auditEntry.findMany({ where: { claimId }, orderBy: { id: "asc" } })).map(({ action }) => action);
const answers = (changed: Readonly<Record<string, Readonly<Record<string, string>>>>) => OWNER_ANSWERS.map(([screen, values]) => [screen, { ...values, ...changed[screen] }] as const);

/** Two complaints: the second says of the drain what the first did not, from another address. */
async function twoComplaints() {
  const first = await aFiledClaim();
  const second = await aFiledClaim(answers({ drain: { F12: "absent" }, contact: { name: "Garage Brook", email: "brook@example.com", phone: "" } }));
  return { first, second, support: await aStaffActor("support") };
}

async function merged(actor: StaffActor, claimId: string, intoId: string) {
  const [{ version }, { reference }] = await Promise.all([row(claimId), row(intoId)]);
  return mergeClaim(actor, claimId, { into: reference, version });
}

async function shown(actor: StaffActor, claimId: string): Promise<StaffClaim> {
  const claim = await loadClaim(actor, claimId);
  if (!claim.ok) throw new Error(claim.reason);
  return claim;
}

async function sameSerialInQueue(actor: StaffActor, claimId: string): Promise<string | null | undefined> {
  const queue = await loadQueue(actor, readQueueFilter({ sort: "newest" }));
  return queue.ok ? queue.rows.find(({ id }) => id === claimId)?.sameSerial : undefined;
}

const drainOf = (claim: StaffClaim) => claim.findings.filter(({ code, observer }) => code === "F12" && observer === "customer");

describe("merging what was filed twice", () => {
  test("ends the second, and shows and counts with the first what both hold; of one observer the newer word stands", async () => {
    const { first, second, support } = await twoComplaints();
    await writeStaffMessage(support, second.claimId, aForm({ body: "We have your complaint." }));
    const before = await row(first.claimId);
    expect(await merged(support, second.claimId, first.claimId)).toEqual({ ok: true });
    expect(await row(second.claimId)).toMatchObject({ stage: "merged", mergedIntoId: first.claimId });
    const claim = await shown(support, first.claimId);
    expect(drainOf(claim)).toMatchObject([{ from: second.reference }]);
    expect(claim.overtaken.filter(({ code }) => code === "F12")).toMatchObject([{ from: null }]);
    expect(claim.customer?.messages).toMatchObject([{ about: second.reference, body: "We have your complaint." }]);
    expect(claim.customer?.alsoTold).toMatchObject([{ reference: second.reference, name: "Garage Brook" }]);
    const after = await row(first.claimId);
    expect(after.leaderProbability).not.toBe(before.leaderProbability);
    expect((await listObservations(database(), first.claimId)).find(({ finding }) => finding === "F12")).toMatchObject({ answer: "absent" });
    expect(await actionsOf(first.claimId)).toContain("take_in");
    expect(await actionsOf(second.claimId)).toContain("merge");
  });

  test("leaves the second's customer a page that gives nothing of the other away, and tells them once by mail", async () => {
    const { first, second, support } = await twoComplaints();
    await merged(support, second.claimId, first.claimId);
    const [page, firsts] = [await loadMyClaim(second), await loadMyClaim(first)];
    const { reference } = await row(first.claimId);
    expect(page?.claim.mergedInto).toBeNull();
    expect(JSON.stringify(page)).not.toContain(reference);
    expect(JSON.stringify(page)).not.toContain("ada@example.com");
    expect(JSON.stringify(firsts)).not.toContain("Garage Brook");
    // What the first customer told stands as they told it, whatever the other says.
    expect(await database().finding.findFirst({ where: { claimId: first.claimId, code: "F12", replacedAt: null } })).toMatchObject({ answer: "present" });
    const mails = await database().outgoingMail.findMany({ where: { claimId: second.claimId, onceKey: { startsWith: "merged:" } } });
    expect(mails).toHaveLength(1);
    expect(mails[0]?.text).not.toContain(reference);
  });

  test("names the reference to the same customer", async () => {
    const [first, second, support] = [await aFiledClaim(), await aFiledClaim(), await aStaffActor("support")];
    await merged(support, second.claimId, first.claimId);
    expect((await loadMyClaim(second))?.claim.mergedInto).toEqual({ reference: first.reference });
  });

  test("takes along what was merged into the second before", async () => {
    const { first, second, support } = await twoComplaints();
    const third = await aFiledClaim();
    await merged(support, third.claimId, second.claimId);
    await merged(support, second.claimId, first.claimId);
    expect((await row(third.claimId)).mergedIntoId).toBe(first.claimId);
    expect((await shown(support, first.claimId)).merged).toHaveLength(2);
  });

  test("crosswise by two people at once merges one of them, not both", async () => {
    const { first, second, support } = await twoComplaints();
    const other = await aStaffActor("admin");
    const results = await Promise.all([merged(support, second.claimId, first.claimId), merged(other, first.claimId, second.claimId)]);
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    const stages = [(await row(first.claimId)).stage, (await row(second.claimId)).stage];
    expect(stages.filter((stage) => stage === "merged")).toHaveLength(1);
  });

  test("twice at once merges once and mails once", async () => {
    const { first, second, support } = await twoComplaints();
    const results = await Promise.all([merged(support, second.claimId, first.claimId), merged(support, second.claimId, first.claimId)]);
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await database().outgoingMail.count({ where: { claimId: second.claimId, onceKey: { startsWith: "merged:" } } })).toBe(1);
  });

  test("is refused with itself, with what is not there, with an ended one, and after a change that was not seen", async () => {
    const { first, second, support } = await twoComplaints();
    const { version } = await row(second.claimId);
    expect(await mergeClaim(support, second.claimId, { into: second.reference, version })).toEqual({ ok: false, reason: "same-claim" });
    expect(await mergeClaim(support, second.claimId, { into: "XXXX-XXX-XXX", version })).toEqual({ ok: false, reason: "no-such-reference" });
    expect(await mergeClaim(support, second.claimId, { into: first.reference, version: version + 7 })).toEqual({ ok: false, reason: "changed-meanwhile", stage: "filed" });
    await database().claim.update({ where: { id: first.claimId }, data: { stage: "withdrawn" } });
    expect(await mergeClaim(support, second.claimId, { into: first.reference, version })).toEqual({ ok: false, reason: "other-has-ended", stage: "withdrawn" });
  });

  test("is refused while money is booked for it, and done once that is reversed", async () => {
    const { first, second, support } = await twoComplaints();
    const { currency } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    const booked = { claimId: second.claimId, kind: "refund", currency, bookedById: support.personId } as const;
    const { id: reversesId } = await database().settlement.create({ data: { ...booked, amountMinor: 10_000, sellerMinor: 10_000 } });
    expect(await merged(support, second.claimId, first.claimId)).toEqual({ ok: false, reason: "money-booked" });
    await database().settlement.create({ data: { ...booked, amountMinor: -10_000, sellerMinor: -10_000, reversesId } });
    expect(await merged(support, second.claimId, first.claimId)).toEqual({ ok: true });
  });

  test("taken apart leads back into review, and the first is ranked without it", async () => {
    const { first, second, support } = await twoComplaints();
    const before = await row(first.claimId);
    await merged(support, second.claimId, first.claimId);
    expect(await takeApart(support, second.claimId)).toEqual({ ok: true });
    expect(await row(second.claimId)).toMatchObject({ stage: "in_review", mergedIntoId: null, assignedToId: support.personId });
    expect((await row(first.claimId)).leaderProbability).toBe(before.leaderProbability);
    expect((await listFindings(first.claimId)).every(({ claimId }) => claimId === first.claimId)).toBe(true);
    expect(await takeApart(support, second.claimId)).toEqual({ ok: false, reason: "not-legal-here", stage: "in_review" });
  });

  test("cannot be taken apart once the first was decided by what both hold", async () => {
    const { first, second, support } = await twoComplaints();
    await merged(support, second.claimId, first.claimId);
    await database().claim.update({ where: { id: first.claimId }, data: { stage: "decided", decidedAt: new Date() } });
    await database().verdict.create({ data: { claimId: first.claimId, primaryCause: "C01", contributingCauses: [], attribution: "fit", origin: "fitter", way: "confirmed", basis: "photo", remedy: "advice", letter: "Dear Ada", decidedById: support.personId } });
    expect(await takeApart(support, second.claimId)).toEqual({ ok: false, reason: "decided-together" });
  });

  test("a finding recorded on the first later counts before what the second's customer said", async () => {
    const { first, second, support } = await twoComplaints();
    await merged(support, second.claimId, first.claimId);
    expect(await recordFinding(support, first.claimId, "F12", aForm({ F12: "present", source: "customer" }))).toEqual({ ok: true });
    expect(drainOf(await shown(support, first.claimId))).toMatchObject([{ from: null }]);
  });
});

describe("linking", () => {
  test("shows each claim with the other, once, and is taken away again", async () => {
    const { first, second, support } = await twoComplaints();
    await Promise.all([linkClaims(support, first.claimId, { reference: second.reference, why: "same vehicle" }), linkClaims(support, second.claimId, { reference: first.reference, why: "same vehicle" })]);
    for (const [one, other] of [[first, second], [second, first]] as const) {
      expect(await loadJoinedClaims(support, one.claimId)).toMatchObject({ linked: [{ id: other.claimId, why: "same vehicle" }] });
    }
    expect((await actionsOf(first.claimId)).filter((action) => action === "link_claims")).toHaveLength(1);
    expect(await unlinkClaims(support, second.claimId, first.claimId)).toEqual({ ok: true });
    expect(await loadJoinedClaims(support, first.claimId)).toMatchObject({ linked: [] });
    expect(await unlinkClaims(support, second.claimId, first.claimId)).toEqual({ ok: false, reason: "not-found" });
  });

  test("hides from the product manager what staff wrote about it", async () => {
    const { first, second, support } = await twoComplaints();
    await linkClaims(support, first.claimId, { reference: second.reference, why: "Ada's brother" });
    expect(await loadJoinedClaims(await aStaffActor("product"), first.claimId)).toMatchObject({ linked: [{ why: "" }] });
  });
});

describe("the same serial", () => {
  test("is noticed however it is written, in the story, and on either claim; a pair's other serial too", async () => {
    const { first, second, support } = await twoComplaints();
    await database().claim.update({ where: { id: first.claimId }, data: { serial: "VT-36 777" } });
    expect(await namePairUnit(support, second.claimId, { pairUnit: "both", serial: "vt66-1", otherSerial: "VT36777" })).toEqual({ ok: true });
    expect(await loadJoinedClaims(support, second.claimId)).toMatchObject({ notices: [{ kind: "owner-and-garage", claim: { id: first.claimId } }] });
    expect(await loadJoinedClaims(support, first.claimId)).toMatchObject({ notices: [{ kind: "owner-and-garage", claim: { id: second.claimId } }] });
    await inTransaction((db) => noteSameUnit(db, second.claimId));
    expect(await database().auditEntry.findFirst({ where: { claimId: second.claimId, action: "notice_unit" } })).toMatchObject({ detail: { kinds: ["owner-and-garage"], others: [first.reference] } });
  });

  test("of a claim that was answered by another unit is said to be replaced", async () => {
    const { first, second, support } = await twoComplaints();
    await database().claim.updateMany({ where: { id: { in: [first.claimId, second.claimId] } }, data: { serial: "VT36-999" } });
    await database().claim.update({ where: { id: first.claimId }, data: { stage: "decided", decidedAt: new Date() } });
    await database().verdict.create({ data: { claimId: first.claimId, primaryCause: "C16", contributingCauses: [], attribution: "unit", way: "confirmed", basis: "bench", remedy: "replacement", letter: "Dear Ada", decidedById: support.personId } });
    expect(await loadJoinedClaims(support, second.claimId)).toMatchObject({ notices: [{ kind: "replaced-already" }] });
  });

  test("empty or unknown matches nothing", async () => {
    const { first, second, support } = await twoComplaints();
    await database().claim.updateMany({ where: { id: { in: [first.claimId, second.claimId] } }, data: { serial: "--" } });
    expect(await loadJoinedClaims(support, second.claimId)).toMatchObject({ notices: [] });
    expect(await sameSerialInQueue(support, second.claimId)).toBeNull();
  });

  test("is named in the queue, however it is written, until one has gone into the other", async () => {
    const { first, second, support } = await twoComplaints();
    await database().claim.update({ where: { id: first.claimId }, data: { serial: "VT-36 555" } });
    await database().claim.update({ where: { id: second.claimId }, data: { pairUnit: "both", serial: "vt66-5", otherSerial: "VT36555" } });
    expect(await sameSerialInQueue(support, first.claimId)).toBe(`same serial as ${second.reference}`);
    expect(await sameSerialInQueue(support, second.claimId)).toBe(`same serial as ${first.reference}`);
    await merged(support, second.claimId, first.claimId);
    expect(await sameSerialInQueue(support, first.claimId)).toBeNull();
  });
});

describe("a compound pair", () => {
  test("is one claim about one or both units, with both serials", async () => {
    const { first, support } = await twoComplaints();
    expect(await namePairUnit(support, first.claimId, { pairUnit: null, serial: "", otherSerial: "X1" })).toMatchObject({ ok: false, reason: "refused", messages: { pairUnit: expect.any(String) } });
    expect(await namePairUnit(support, first.claimId, { pairUnit: "both", serial: "X1", otherSerial: "X1" })).toMatchObject({ ok: false, reason: "refused", messages: { otherSerial: expect.any(String) } });
    expect(await namePairUnit(support, first.claimId, { pairUnit: "both", serial: "X1", otherSerial: "X2" })).toEqual({ ok: true });
    expect((await shown(support, first.claimId)).pair).toEqual({ unit: "both", serial: "X1", otherSerial: "X2" });
    await database().claim.update({ where: { id: first.claimId }, data: { stage: "cleared" } });
    expect(await namePairUnit(support, first.claimId, { pairUnit: "large", serial: "X1", otherSerial: "" })).toEqual({ ok: false, reason: "not-legal-here", stage: "cleared" });
  });
});

test("the history finds the customer's other claims by e-mail, telephone and order, and nobody else's", async () => {
  const { first, second, support } = await twoComplaints();
  const own = await aFiledClaim();
  await database().claim.update({ where: { id: first.claimId }, data: { contactEmail: "History@example.com", contactPhone: "+49 30 1234567", orderNumber: "H-1" } });
  await database().claim.update({ where: { id: second.claimId }, data: { contactPhone: "+49301234567" } });
  await database().claim.update({ where: { id: own.claimId }, data: { contactEmail: "history@example.com", orderNumber: "h-1" } });
  const history = await loadCustomerHistory(support, first.claimId);
  expect(history.ok && history.claims.map(({ id, sameEmail, samePhone, sameOrder }) => ({ id, sameEmail, samePhone, sameOrder })).sort((a, b) => a.id.localeCompare(b.id))).toEqual(
    [
      { id: second.claimId, sameEmail: false, samePhone: true, sameOrder: false },
      { id: own.claimId, sameEmail: true, samePhone: false, sameOrder: true },
    ].sort((a, b) => a.id.localeCompare(b.id)),
  );
});
