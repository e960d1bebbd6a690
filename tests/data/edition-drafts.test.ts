import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findEdition, loadEdition } from "@/lib/data/editions";
import type { Edits } from "@/lib/domain/diagnosis/edition-edits";
import { dropEditionDraft, keepEdits, loadEditionDraft, openEditionDraft, proposeDraft } from "@/lib/operations/edition-drafts";
import { exportEdition, proposeEditionFile } from "@/lib/operations/exchange-edition";
import { loadEditions, loadKnowledge } from "@/lib/operations/load-knowledge";
import { aStaffActor } from "@/tests/builders/a-person";
import { withBase } from "@/tests/builders/an-edition";

let admin: StaffActor;
beforeAll(async () => {
  admin = await aStaffActor("admin");
});

const BASE = "causes.C01.base";
const GROUND: Edits = { [`${BASE}.provenance.kind`]: "common practice", [`${BASE}.provenance.note`]: "Three fitters" };

async function aDraftOf(actor: StaffActor = admin): Promise<string> {
  const opened = await openEditionDraft(actor, 1);
  if (!opened.ok) throw new Error("no draft was opened");
  return opened.draftId;
}

async function inWork(draftId: string) {
  const loaded = await loadEditionDraft(admin, draftId);
  if (!loaded.ok) throw new Error(`not loaded: ${loaded.reason}`);
  return loaded;
}

describe("a draft of an edition", () => {
  test("is the same when it is opened again, and is nobody else's", async () => {
    const draftId = await aDraftOf();
    expect(await aDraftOf()).toBe(draftId);
    const other = await aStaffActor("admin");
    expect(await loadEditionDraft(other, draftId)).toEqual({ ok: false, reason: "not-found" });
    expect(await keepEdits(other, draftId, { name: "Mine now" })).toEqual({ ok: false, reason: "not-found" });
    expect(await proposeDraft(other, draftId)).toEqual({ ok: false, reason: "not-found" });
    expect(await dropEditionDraft(other, draftId)).toEqual({ ok: false, reason: "not-found" });
    expect(await openEditionDraft(admin, 9999)).toEqual({ ok: false, reason: "not-found" });
  });

  test("keeps what is typed, sound or not, and tells what cannot stand beside its field", async () => {
    const draftId = await aDraftOf();
    await keepEdits(admin, draftId, { [`${BASE}.value`]: "-3", ...GROUND });
    const { draft, issues, diff } = await inWork(draftId);
    expect(draft.typed[`${BASE}.value`]).toBe("-3");
    expect(issues).toEqual([{ path: `${BASE}.value`, message: "A base figure lies above 0." }]);
    expect(diff.map(({ name }) => name)).toHaveLength(1);
    expect(await proposeDraft(admin, draftId)).toMatchObject({ ok: false, reason: "refused" });
    expect((await inWork(draftId)).draft.typed[`${BASE}.value`]).toBe("-3");
  });

  test("asks for the ground of a changed figure", async () => {
    const draftId = await aDraftOf(admin);
    await keepEdits(admin, draftId, { [`${BASE}.value`]: "7", [`${BASE}.provenance.kind`]: "", [`${BASE}.provenance.note`]: "" });
    expect((await inWork(draftId)).issues).toEqual([{ path: `${BASE}.provenance.kind`, message: "Say where the new figure comes from." }]);
  });

  test("loses nothing when two windows keep different forms at once", async () => {
    const draftId = await aDraftOf();
    await Promise.all([keepEdits(admin, draftId, { "causes.C02.name": "Drain blocked" }), keepEdits(admin, draftId, { "causes.C03.name": "Drain too narrow" })]);
    expect((await inWork(draftId)).draft.typed).toMatchObject({ "causes.C02.name": "Drain blocked", "causes.C03.name": "Drain too narrow" });
    const shipped = await loadEdition(1);
    await keepEdits(admin, draftId, Object.fromEntries(shipped.causes.map(({ code, name }) => [`causes.${code}.name`, name])));
    expect((await inWork(draftId)).draft.typed).not.toHaveProperty("causes.C02.name");
  });

  test("takes no field that is none, and no flood", async () => {
    const draftId = await aDraftOf();
    await keepEdits(admin, draftId, { number: "99", "stopRules.0.reason": "none", "__proto__.x": "1" });
    expect(Object.keys((await inWork(draftId)).draft.typed)).not.toEqual(expect.arrayContaining(["number"]));
    expect(await keepEdits(admin, draftId, { "causes.C01.advice": "x".repeat(3000) })).toEqual({ ok: false, reason: "too-much" });
  });

  test("becomes a proposed edition, and is done with", async () => {
    const draftId = await aDraftOf();
    await keepEdits(admin, draftId, { name: "Drains seen more", why: "Counted at the bench", [`${BASE}.value`]: "7", ...GROUND });
    const proposed = await proposeDraft(admin, draftId);
    expect(proposed).toMatchObject({ ok: true });
    const number = proposed.ok ? proposed.number : 0;
    expect(await findEdition(number)).toMatchObject({ name: "Drains seen more", why: "Counted at the bench", origin: "by_hand", basisNumber: 1 });
    expect(await loadEditionDraft(admin, draftId)).toEqual({ ok: false, reason: "not-found" });
    const shown = await loadKnowledge(admin, number);
    expect(shown).toMatchObject({ row: { state: "proposed" }, story: [{ action: "propose_edition", by: "Wren Calder" }] });
    expect(shown.ok && shown.diff.map(({ subject }) => subject?.code ?? null)).toEqual(["C01", null]);
  });

  test("gives no code twice, not even one of an edition that was never in force", async () => {
    const draftId = await aDraftOf();
    const { nextCodes } = await inWork(draftId);
    await keepEdits(admin, draftId, { "causes.C24.is": "added" });
    expect((await inWork(draftId)).nextCodes).toEqual({ ...nextCodes, cause: "C25" });
    await dropEditionDraft(admin, draftId);
    expect(await loadEditionDraft(admin, draftId)).toEqual({ ok: false, reason: "not-found" });
  });
});

describe("an edition as a file", () => {
  const stream = (text: string) => new Blob([text]).stream();

  test("goes out and comes back under a number of its own", async () => {
    const out = await exportEdition(admin, 1);
    const document = withBase(JSON.parse(out.ok ? out.json : ""), "C01", 3);
    const proposed = await proposeEditionFile(admin, stream(JSON.stringify(document)), { basis: 1, why: "Changed elsewhere" });
    expect(proposed).toMatchObject({ ok: true });
    expect(await loadEdition(proposed.ok ? proposed.number : 0)).toMatchObject({ causes: document.causes });
    expect(await exportEdition(admin, 9999)).toEqual({ ok: false, reason: "not-found" });
  });

  test.each([
    ["broken JSON", '{"causes": [', "not-json"],
    ["nothing", "", "not-json"],
    ["10 MB", `"${"x".repeat(10_000_000)}"`, "too-big"],
    ["a list", "[]", "refused"],
  ])("is refused as %s, and nothing is kept", async (_what, text, reason) => {
    const before = await database().knowledgeEdition.count();
    expect(await proposeEditionFile(admin, stream(text), { basis: 1, why: "To try" })).toMatchObject({ ok: false, reason });
    expect(await database().knowledgeEdition.count()).toBe(before);
  });
});

test("the list of editions names the one in force, and shows drafts only to whoever may change them", async () => {
  await aDraftOf();
  expect(await loadEditions(admin)).toMatchObject({ ok: true, inForce: { number: 1 }, mayChange: true, drafts: [{ basisNumber: 1 }] });
  expect(await loadEditions(await aStaffActor("support"))).toMatchObject({ mayChange: false, drafts: [] });
});
