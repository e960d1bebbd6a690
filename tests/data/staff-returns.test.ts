import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { listAwaitedUnits } from "@/lib/data/returns";
import { may } from "@/lib/domain/claims/permissions";
import { parseReference } from "@/lib/domain/claims/reference";
import { postalAddress } from "@/lib/domain/claims/return-instructions";
import { daysOverdue } from "@/lib/domain/claims/return-dates";
import { ROLES } from "@/lib/domain/claims/roles";
import { authoriseReturn } from "@/lib/operations/authorise-return";
import { correctSerialSeen } from "@/lib/operations/correct-serial-seen";
import { loadReturns, loadReturnsOfClaim } from "@/lib/operations/load-returns";
import { receiveReturn } from "@/lib/operations/receive-return";
import { aClaim } from "@/tests/builders/a-claim";
import { aStaffActor } from "@/tests/builders/a-person";

const DAY_MS = 86_400_000;
const ASKED = { version: 0, note: "" };

let support: StaffActor;
let bench: StaffActor;
beforeAll(async () => {
  support = await aStaffActor("support");
  bench = await aStaffActor("bench");
});

async function aReturn(serial: string | null = null) {
  const claim = await aClaim({ serial });
  const authorised = await authoriseReturn(support, claim.id, ASKED);
  if (!authorised.ok) throw new Error(authorised.reason);
  const { id } = await database().return.findUniqueOrThrow({ where: { number: authorised.number } });
  return { claimId: claim.id, returnId: id, number: authorised.number };
}

async function aUnitOnBench() {
  const returned = await aReturn();
  await receiveReturn(bench, { returnId: returned.returnId, serialSeen: "" });
  return returned;
}

/** The claim was decided while the unit was awaited, and taken back into review. */
async function backInReview(claimId: string): Promise<void> {
  await database().claim.update({ where: { id: claimId }, data: { stage: "in_review" } });
}

const stageOf = async (id: string) => (await database().claim.findUniqueOrThrow({ where: { id } })).stage;

describe("a return", () => {
  test("is authorised with a number, a last day and a mail with the address, and the claim waits", async () => {
    const { claimId, number } = await aReturn();
    expect(parseReference(number.slice(2))).toBe(number.slice(2));
    expect(await stageOf(claimId)).toBe("awaiting_the_unit");
    const settings = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    const kept = await database().return.findUniqueOrThrow({ where: { number } });
    expect((kept.expiresAt.getTime() - kept.authorisedAt.getTime()) / 86_400_000).toBe(settings.returnWithinDays);
    const mail = await database().outgoingMail.findFirstOrThrow({ where: { claimId } });
    expect(mail.text).toContain(number);
    for (const line of postalAddress(settings)) expect(mail.text).toContain(line);
    expect(mail.text).toMatch(/\/claim\/[\w-]+\/open\?key=/);
  });

  test("is refused a second time, and where the claim has changed since it was read", async () => {
    const { claimId } = await aReturn();
    expect(await authoriseReturn(support, claimId, { version: 1, note: "" })).toMatchObject({ ok: false, reason: "not-legal-here" });
    const claim = await aClaim();
    expect(await authoriseReturn(support, claim.id, { version: 7, note: "" })).toMatchObject({ ok: false, reason: "changed-meanwhile" });
    expect(await database().return.count({ where: { claimId } })).toBe(1);
  });

  test("of two who ask at once, is authorised once", async () => {
    const claim = await aClaim();
    const both = await Promise.all([authoriseReturn(support, claim.id, ASKED), authoriseReturn(support, claim.id, ASKED)]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await database().outgoingMail.count({ where: { claimId: claim.id } })).toBe(1);
  });

  test("that is on its way when an appeal asks for the unit again goes on, with its number and a new last day", async () => {
    const { claimId, number } = await aReturn();
    await backInReview(claimId);
    const later = new Date(Date.now() + 3 * 86_400_000);
    expect(await authoriseReturn(support, claimId, { version: 1, note: "" }, later)).toEqual({ ok: true, number });
    const returns = await database().return.findMany({ where: { claimId } });
    const { returnWithinDays } = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
    expect(returns.map(({ expiresAt }) => (expiresAt.getTime() - later.getTime()) / 86_400_000)).toEqual([returnWithinDays]);
    expect(await database().outgoingMail.count({ where: { claimId, text: { contains: number } } })).toBe(2);
    expect(await stageOf(claimId)).toBe("awaiting_the_unit");
  });

  test("whose unit is here is not asked for again", async () => {
    const { claimId } = await aUnitOnBench();
    await backInReview(claimId);
    expect(await authoriseReturn(support, claimId, { version: 1, note: "" })).toEqual({ ok: false, reason: "unit-is-here" });
    expect(await loadReturnsOfClaim(support, claimId)).toMatchObject({ ok: true, mayAuthorise: false });
    expect(await stageOf(claimId)).toBe("in_review");
  });

  test("is received once, and says whether the serial is the expected one", async () => {
    const { returnId } = await aReturn("BK-1042");
    expect(await receiveReturn(bench, { returnId, serialSeen: "bk 1042" })).toEqual({ ok: true, serial: "matches" });
    expect(await receiveReturn(bench, { returnId, serialSeen: "bk 1042" })).toEqual({ ok: false, reason: "not-expected" });
    const other = await aReturn("BK-1042");
    expect(await receiveReturn(bench, { returnId: other.returnId, serialSeen: "BK-9999" })).toEqual({ ok: true, serial: "differs" });
    expect(await loadReturns(bench)).toMatchObject({ ok: true, here: expect.arrayContaining([expect.objectContaining({ number: other.number, serialMatch: "differs", serialSeen: "BK-9999" })]) });
    expect(await receiveReturn(bench, { returnId: randomUUID(), serialSeen: "" })).toEqual({ ok: false, reason: "not-found" });
  });

  test("received under a mistyped serial can be put right until it is inspected, and the trail says so", async () => {
    const { claimId, returnId } = await aReturn("BK-1042");
    expect(await correctSerialSeen(bench, { returnId, serialSeen: "BK-1042" })).toEqual({ ok: false, reason: "not-expected" });
    await receiveReturn(bench, { returnId, serialSeen: "BK-1024" });
    expect(await correctSerialSeen(bench, { returnId, serialSeen: "BK-1042" })).toEqual({ ok: true, serial: "matches" });
    expect(await database().auditEntry.findFirst({ where: { claimId, action: "correct_serial" } })).toMatchObject({ personId: bench.personId, detail: { serial: "matches" } });
    expect(await correctSerialSeen(bench, { returnId: randomUUID(), serialSeen: "" })).toEqual({ ok: false, reason: "not-found" });
  });

  test("is listed as overdue after its last day", async () => {
    const { number } = await aReturn();
    const later = await loadReturns(bench, new Date(Date.now() + 365 * 86_400_000));
    expect(later.ok && later.coming.units.find((unit) => unit.number === number)?.isOverdue).toBe(true);
  });

  test("past those that are listed is counted still, and those due first are listed", async () => {
    const now = Date.now();
    const states = [
      { state: "authorised", expiresAt: new Date(now - 40 * DAY_MS) },
      { state: "in_carriage", sentAt: new Date(now - 45 * DAY_MS) },
      { state: "in_carriage", sentAt: new Date(now - 2 * DAY_MS), expiresAt: new Date(now - 60 * DAY_MS) },
      { state: "authorised" },
    ] as const;
    const ids: string[] = [];
    for (const data of states) {
      const { returnId } = await aReturn();
      await database().return.update({ where: { id: returnId }, data: { authorisedAt: new Date(now - 90 * DAY_MS), ...data } });
      ids.push(returnId);
    }
    const all = await listAwaitedUnits(new Date(now), 100_000);
    expect(all.units.map(({ id }) => id).filter((id) => ids.includes(id))).toEqual([ids[0], ids[1], ids[2], ids[3]]);
    const late = all.units.filter((unit) => daysOverdue(unit, new Date(now)) !== null);
    expect(late.map(({ id }) => id).filter((id) => ids.includes(id))).toEqual([ids[0], ids[1]]);
    expect(all).toMatchObject({ total: all.units.length, overdue: late.length });
    const first = await listAwaitedUnits(new Date(now), 1);
    expect(first).toEqual({ ...all, units: all.units.slice(0, 1) });
  });
});

describe.each(ROLES)("a person of role %s", (role) => {
  test.each([
    ["authorise a return", "authoriseReturn", (actor: StaffActor, claimId: string) => authoriseReturn(actor, claimId, ASKED)],
    ["hand over a unit", "receiveReturn", (actor: StaffActor) => receiveReturn(actor, { returnId: randomUUID(), serialSeen: "" })],
    ["inspect a unit", "correctSerialSeen", (actor: StaffActor) => correctSerialSeen(actor, { returnId: randomUUID(), serialSeen: "" })],
    ["hand over a unit", "loadReturns", (actor: StaffActor) => loadReturns(actor)],
    ["see a claim", "loadReturnsOfClaim", (actor: StaffActor, claimId: string) => loadReturnsOfClaim(actor, claimId)],
  ] as const)("needs %s for %s, and is told and recorded otherwise", async (permission, _, act) => {
    const actor = await aStaffActor(role);
    const claim = await aClaim();
    const answer = await act(actor, claim.id);
    const refusals = await database().auditEntry.count({ where: { personId: actor.personId, action: "refused" } });
    if (may(role, permission)) expect(refusals).toBe(0);
    else {
      expect(answer).toEqual({ ok: false, reason: "not-allowed" });
      expect(refusals).toBe(1);
    }
  });
});
