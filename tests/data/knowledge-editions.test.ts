import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findEdition, findPromotedLast, insertEdition, loadCausesEverInForce, loadEdition, loadEditionInForce, markPromoted } from "@/lib/data/editions";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { discardEdition, promoteEdition } from "@/lib/operations/decide-edition";
import { proposeEdition } from "@/lib/operations/propose-edition";
import { aStaffActor } from "@/tests/builders/a-person";
import { aProposedEdition, withBase } from "@/tests/builders/an-edition";

let admin: StaffActor;
let shipped: Edition;

beforeAll(async () => {
  admin = await aStaffActor("admin");
  shipped = await loadEdition(1);
});

const propose = (document: unknown, change: { basis?: number; why?: string } = {}) =>
  proposeEdition(admin, { document, basis: 1, origin: "by_hand", why: "To try", ...change });

/** A copy of the shipped edition, to be spoilt. */
// biome-ignore lint/suspicious/noExplicitAny: a document from outside may be anything
type Spoilt = any;
const copy = (): Spoilt => structuredClone(shipped);
const finding = (document: Spoilt, code: string) => document.findings.find((one: { code: string }) => one.code === code);

describe("a proposed edition", () => {
  test("is kept whole under the next number, with who proposed it and why", async () => {
    const proposed = await propose({ ...withBase(shipped, "C01", 2), number: 77 });
    expect(proposed).toMatchObject({ ok: true, number: expect.any(Number) });
    const number = proposed.ok ? proposed.number : 0;
    expect(await findEdition(number)).toMatchObject({ origin: "by_hand", basisNumber: 1, why: "To try", proposedBy: { name: "Wren Calder" }, promotedAt: null, discardedAt: null });
    const kept = await loadEdition(number);
    expect(kept).toEqual({ ...withBase(shipped, "C01", 2), number });
    const line = await database().auditEntry.findFirstOrThrow({ where: { action: "propose_edition" }, orderBy: { id: "desc" } });
    expect(line).toMatchObject({ personId: admin.personId, detail: { edition: number, basis: 1 } });
  });

  test("gets a number of its own when two are proposed at once", async () => {
    const both = await Promise.all([2, 3, 4, 5].map((factor) => propose(withBase(shipped, "C02", factor))));
    expect(new Set(both.map((one) => (one.ok ? one.number : null))).size).toBe(4);
  });

  test("is not in force", async () => {
    await aProposedEdition(admin);
    expect((await loadEditionInForce()).number).toBe(1);
  });

  test.each<[string, string, RegExp, (document: Spoilt) => void]>([
    ["a probability above 1", "findings.F12.links.C01.strength.customer.value", /never above 1/, (it) => { finding(it, "F12").links[0].strength.customer.value = 1.2; }],
    ["a probability below 0", "findings.F12.background.technician.value", /never below 0/, (it) => { finding(it, "F12").background.technician.value = -0.1; }],
    ["a probability that is no number", "findings.F12.background.bench.value", /number/, (it) => { finding(it, "F12").background.bench.value = "often"; }],
    ["a negative base figure", "causes.C01.base.value", /above 0/, (it) => { it.causes[0].base.value = -1; }],
    ["a base figure of 1", "causes.C01.base.value", /below 1/, (it) => { it.causes[0].base.value = 1; }],
    ["a figure without provenance", "causes.C01.base.provenance", /./, (it) => { it.causes[0].base.provenance = undefined; }],
    ["an odds ratio of 0", "findings.F07.shifts.", /above 0/, (it) => { finding(it, "F07").shifts[0].oddsRatio.value = 0; }],
    ["a cause that nobody can observe", "causes.C05", /shown by no finding/, (it) => { for (const one of it.findings) if (one.links) one.links = one.links.filter((link: { cause: string }) => link.cause !== "C05"); }],
    ["a cause that only somebody who may not look could see", "causes.C24", /shown by no finding/, (it) => {
      it.causes.push({ ...it.causes[0], code: "C24" });
      const dark = { ...finding(it, "F45").links[0], cause: "C24" };
      const { bench, ...others } = dark.strength;
      finding(it, "F45").links.push({ ...dark, strength: { ...others, bench: { ...bench, value: 0 } } });
    }],
    ["one code for two causes", "causes.C01.code", /twice/, (it) => { it.causes[1].code = "C01"; }],
    ["one code for two findings", "findings.F12.code", /twice/, (it) => { it.findings.push(finding(it, "F12")); }],
    ["two links to one cause", "findings.F12.links.C01", /twice/, (it) => { finding(it, "F12").links.push(finding(it, "F12").links[0]); }],
    ["a link to a cause that is not there", "findings.F12.links.C99.cause", /C99 is not a cause/, (it) => { finding(it, "F12").links[0].cause = "C99"; }],
    ["an unknown finding in a group", "samePhysicalFact.0.0", /F99 is not a finding/, (it) => { it.samePhysicalFact[0][0] = "F99"; }],
    ["an unknown finding in a stop rule", "stopRules.0.when.0.finding", /F99 is not a finding/, (it) => { it.stopRules[0].when[0].finding = "F99"; }],
    ["an attribution of its own", "causes.C01.attribution", /./, (it) => { it.causes[0].attribution = "weather"; }],
    ["a code that is none", "causes.X1.code", /C01/, (it) => { it.causes[0].code = "X1"; }],
    ["no name", "name", /./, (it) => { it.name = " "; }],
  ])("is refused for %s, by the name of the field, and nothing is kept", async (_what, path, message, spoil) => {
    const before = await database().knowledgeEdition.count();
    const document = copy();
    spoil(document);
    const refused = await propose(document);
    expect(refused).toMatchObject({ ok: false, reason: "refused" });
    const issues = !refused.ok && refused.reason === "refused" ? refused.issues : [];
    expect(issues.some((issue) => issue.path.startsWith(path) && message.test(issue.message)), JSON.stringify(issues)).toBe(true);
    expect(await database().knowledgeEdition.count()).toBe(before);
  });

  test.each([null, 7, "edition", [], {}])("is refused when it is %j", async (document) => {
    expect(await propose(document)).toMatchObject({ ok: false, reason: "refused" });
  });

  test("is refused when a changed figure does not say where it comes from", async () => {
    const document = copy();
    document.causes[0].base.value *= 2;
    expect(await propose(document)).toEqual({ ok: false, reason: "refused", issues: [{ path: "causes.C01.base.provenance", message: "Say where the new figure comes from." }] });
  });

  test("is refused without a reason, and when it states what is in force", async () => {
    expect(await propose(withBase(shipped, "C01", 2), { why: " " })).toMatchObject({ reason: "refused", issues: [{ path: "why" }] });
    expect(await propose(shipped)).toEqual({ ok: false, reason: "nothing-changed" });
    expect(await propose(withBase(shipped, "C01", 2), { basis: 9999 })).toEqual({ ok: false, reason: "unknown-basis" });
  });
});

describe("a decision about an edition", () => {
  test("promotes it once, at once, and keeps the reason", async () => {
    const number = await aProposedEdition(admin);
    const at = await Promise.all([1, 2].map(() => promoteEdition(admin, number, { reason: "It leads better" })));
    expect(at.map(({ ok }) => ok).sort()).toEqual([false, true]);
    expect(at).toContainEqual({ ok: false, reason: "not-proposed" });
    expect((await loadEditionInForce()).number).toBe(number);
    const line = await database().auditEntry.findFirstOrThrow({ where: { action: "promote_edition" }, orderBy: { id: "desc" } });
    expect(line.detail).toMatchObject({ edition: number, reason: "It leads better" });
  });

  test("puts nothing in force that the rules of today refuse", async () => {
    const number = await aProposedEdition(admin);
    await database().$executeRaw`update knowledge_edition set document = jsonb_set(document::jsonb, '{causes,0,base,value}', '2') where number = ${number}`;
    expect(await promoteEdition(admin, number, { reason: "Kept before the rules" })).toMatchObject({ ok: false, reason: "refused", issues: [{ path: "causes.C01.base.value" }] });
    expect((await findPromotedLast()).number).not.toBe(number);
  });

  test("warns when another was promoted since the edition it was made from, until that is confirmed", async () => {
    const [first, second] = [await aProposedEdition(admin), await aProposedEdition(admin)];
    expect(await promoteEdition(admin, first, { reason: "First" })).toEqual({ ok: true });
    expect(await promoteEdition(admin, second, { reason: "Second" })).toEqual({ ok: false, reason: "basis-not-in-force", inForce: first });
    // A confirmation of what was in force some time ago is none.
    expect(await promoteEdition(admin, second, { reason: "Second", inSpiteOf: 1 })).toMatchObject({ reason: "basis-not-in-force" });
    expect((await findPromotedLast()).number).toBe(first);
    expect(await promoteEdition(admin, second, { reason: "Second", inSpiteOf: first })).toEqual({ ok: true });
    expect((await findPromotedLast()).number).toBe(second);
  });

  test("puts the one promoted last in force even by a clock that is slow", async () => {
    const number = await aProposedEdition(admin);
    expect(await promoteEdition(admin, number, { reason: "Slow clock" }, new Date("2020-01-01"))).toEqual({ ok: true });
    expect((await findPromotedLast()).number).toBe(number);
  });

  test("discards a proposed edition, and no other", async () => {
    const number = await aProposedEdition(admin);
    expect(await discardEdition(admin, number, { reason: "It leads worse" })).toEqual({ ok: true });
    expect(await discardEdition(admin, number, { reason: "Again" })).toEqual({ ok: false, reason: "not-proposed" });
    expect(await promoteEdition(admin, number, { reason: "After all" })).toEqual({ ok: false, reason: "not-proposed" });
    expect(await discardEdition(admin, (await findPromotedLast()).number, { reason: "In force" })).toEqual({ ok: false, reason: "not-proposed" });
    expect(await discardEdition(admin, 9999, { reason: "None" })).toEqual({ ok: false, reason: "not-found" });
  });
});

test("a cause that the edition in force no longer has keeps the name it was last called by", async () => {
  const [retired, ...others] = shipped.causes;
  const number = await insertEdition(database(), { edition: { ...shipped, causes: others }, origin: "by_hand", basisNumber: 1, why: "Seen no more", proposedById: admin.personId });
  await markPromoted(database(), number, new Date(Date.now() + 1000));
  expect((await loadEditionInForce()).causes).toEqual(others);
  expect((await loadCausesEverInForce()).find(({ code }) => code === retired?.code)?.name).toBe(retired?.name);
});
