import { createHash, randomUUID } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { refreshReportCells } from "@/lib/data/report-cells";
import { deskClaimsFilterSchema } from "@/lib/inputs/desk-filter";
import { giveSecondOpinion } from "@/lib/operations/give-second-opinion";
import { loadDeskClaims, loadDeskQuality } from "@/lib/operations/load-desk-quality";
import { loadBlindClaim, loadSecondOpinions } from "@/lib/operations/load-second-opinions";
import { aDecidedClaim } from "@/tests/builders/a-claim";
import { aPerson, aStaffActor } from "@/tests/builders/a-person";

const OPINION = { primaryCause: "C15", attribution: "unit" } as const;
let first: StaffActor;
let second: StaffActor;
let third: StaffActor;
const share = (secondOpinionShare: number) => database().sellerSettings.update({ where: { id: 1 }, data: { secondOpinionShare } });

beforeAll(async () => {
  [first, second, third] = await Promise.all([aStaffActor("support"), aStaffActor("support"), aStaffActor("admin")]);
  await share(100);
});
afterAll(() => share(5));

describe("the blind sample", () => {
  test("is chosen by the claims' own numbers, and about as large as asked for", async () => {
    for (let made = 0; made < 40; made += 1) await aDecidedClaim(first.personId);
    const ids = async (of: number) => {
      await share(of);
      const loaded = await loadSecondOpinions(second);
      return loaded.ok ? loaded.claims.map(({ id }) => id) : [];
    };
    const all = await ids(100);
    const half = await ids(50);
    expect(all.length).toBeGreaterThanOrEqual(40);
    expect(new Set(half)).toEqual(new Set(all.filter((id) => Number.parseInt(createHash("md5").update(id).digest("hex").slice(0, 8), 16) / 2 ** 32 < 0.5)));
    expect(await ids(0)).toEqual([]);
    await share(100);
  });

  test("is not for whoever decided", async () => {
    const { id } = await aDecidedClaim(first.personId);
    const mine = await loadSecondOpinions(first);
    expect(mine.ok && mine.claims.map((claim) => claim.id)).not.toContain(id);
    expect(await giveSecondOpinion(first, id, OPINION)).toEqual({ ok: false, reason: "decided-by-you" });
    expect(await loadBlindClaim(first, id)).toEqual({ ok: false, reason: "decided-by-you" });
  });

  test("is not for whoever approved it either", async () => {
    const { id } = await aDecidedClaim(first.personId);
    await database().verdict.updateMany({ where: { claimId: id }, data: { approvedById: second.personId, approvedAt: new Date() } });
    const mine = await loadSecondOpinions(second);
    expect(mine.ok && mine.claims.map((claim) => claim.id)).not.toContain(id);
    expect(await giveSecondOpinion(second, id, OPINION)).toEqual({ ok: false, reason: "decided-by-you" });
  });

  test("shows findings alone: no ranking, verdict, name or word", async () => {
    const { id, reference } = await aDecidedClaim(first.personId);
    await database().finding.create({ data: { claimId: id, code: "F45", observer: "bench", answer: "present", note: "Wren Calder blames the unit" } });
    const blind = await loadBlindClaim(second, id);
    expect(blind).toMatchObject({ ok: true, findings: [{ code: "F45", answer: "Off its groove, broken or wrong" }] });
    const told = JSON.stringify({ ...blind, causes: [] });
    for (const secret of ["C16", "refund", "Wren", "Ada", reference, "note"]) expect(told).not.toContain(secret);
  });

  test("takes one opinion a claim: of two at once the second is told whose it is, and the verdict stays", async () => {
    const { id } = await aDecidedClaim(first.personId);
    const before = await database().claim.findUniqueOrThrow({ where: { id }, include: { verdicts: true } });
    const outcomes = await Promise.all([giveSecondOpinion(second, id, OPINION), giveSecondOpinion(third, id, OPINION)]);
    expect(outcomes.filter(({ ok }) => ok)).toHaveLength(1);
    expect(outcomes.find(({ ok }) => !ok)).toMatchObject({ reason: "given-already", by: expect.any(String), at: expect.any(Date) });
    expect(await database().claim.findUniqueOrThrow({ where: { id }, include: { verdicts: true } })).toEqual(before);
    expect(await database().auditEntry.count({ where: { claimId: id, action: "give_second_opinion" } })).toBe(1);
    expect(await database().secondOpinion.findUnique({ where: { claimId: id } })).toMatchObject({ verdictId: before.verdicts[0]?.id, ...OPINION });
  });

  test("asks nothing of a claim whose verdict was taken back, of an old one, or by a cause nobody knows", async () => {
    const { id } = await aDecidedClaim(first.personId);
    expect(await giveSecondOpinion(second, id, { ...OPINION, primaryCause: "C99" })).toEqual({ ok: false, reason: "unknown-cause" });
    expect(await giveSecondOpinion(second, id, OPINION, new Date(Date.now() + 31 * 86_400_000))).toEqual({ ok: false, reason: "not-asked" });
    await database().verdict.updateMany({ where: { claimId: id }, data: { supersededAt: new Date(Date.now() + 1000) } });
    expect(await giveSecondOpinion(second, id, OPINION)).toEqual({ ok: false, reason: "not-asked" });
    expect(await giveSecondOpinion(second, randomUUID(), OPINION)).toEqual({ ok: false, reason: "not-found" });
  });
});

describe("the quality of the desk", () => {
  test("opens for each figure exactly the claims it counts, without reasons for who may not see a customer", async () => {
    const month = new Date().toISOString().slice(0, 7);
    const decider = await aPerson({});
    const givenBefore = await database().secondOpinion.count();
    const { id } = await aDecidedClaim(decider.id);
    await database().verdict.updateMany({ where: { claimId: id }, data: { way: "overruled", reason: "As Ada Brink wrote" } });
    await giveSecondOpinion(second, id, OPINION);
    while ((await refreshReportCells()) !== 0);
    const product = await aStaffActor("product");
    const loaded = await loadDeskQuality(product, { from: month, to: month });
    if (!loaded.ok) throw new Error(loaded.reason);
    for (const figure of Object.keys(loaded.quality.counts)) {
      const { page: _, ...wanted } = deskClaimsFilterSchema.parse({ from: month, to: month, figure });
      const listed = await loadDeskClaims(product, wanted, { skip: 0, take: 1000 });
      const { length } = listed.ok ? listed.rows : [];
      expect([listed.ok && listed.total, length], figure).toEqual([loaded.quality.counts[wanted.figure], loaded.quality.counts[wanted.figure]]);
    }
    expect(loaded.overrules).toMatchObject([{ id, cause: "C16", secondCause: "C15", secondAttribution: "unit", reason: null }]);
    expect(loaded.quality.betweenStaff.cells).toContainEqual({ first: "unit", second: "unit", claims: 1 + givenBefore });
    const seen = await loadDeskQuality(second, { from: month, to: month });
    expect(seen.ok && seen.overrules[0]?.reason).toBe("As Ada Brink wrote");
  });

  test("has sensible figures where nothing was filed", async () => {
    expect(await loadDeskQuality(second, { from: "2031-01", to: "2031-02" })).toMatchObject({ ok: true, overrules: [], quality: { inTime: null, betweenStaff: { pairs: 0 } } });
    expect(await loadDeskQuality(second, { from: "2026-01", to: "2026-02", kit: "NO-SUCH" })).toEqual({ ok: false, reason: "unknown", field: "kit" });
  });
});
