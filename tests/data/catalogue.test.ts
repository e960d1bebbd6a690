import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import type { KitEntry, SupplierEntry, VehicleEntry } from "@/lib/domain/catalogue/entries";
import { kitRevisionSchema, supplierSchema, turboModelSchema, vehicleSchema } from "@/lib/inputs/catalogue";
import { messagesOf } from "@/lib/inputs/intake";
import { joinFitters, keepInCatalogue, removeFromCatalogue } from "@/lib/operations/keep-in-catalogue";
import { loadCatalogue, loadEntry, loadKit, loadSupplier, loadTurboModel } from "@/lib/operations/load-catalogue";
import { aClaim } from "@/tests/builders/a-claim";
import { aStaffActor } from "@/tests/builders/a-person";

const some = () => randomUUID().slice(0, 8);
const aVehicle = (): VehicleEntry => ({ make: "Halvorn", model: some(), engine: "2.4 D", fuel: "diesel", yearFrom: 2007, yearTo: null });
const aKit = (fits: readonly string[] = []): KitEntry => ({ code: `K-${some()}`, name: "A kit", turboModelId: null, supplierId: null, retiredOn: null, fits });
const aSupplier = (): SupplierEntry => ({ code: `S-${some()}`, name: "Works", email: "works@example.com", address: "", answerWithinDays: 30, retiredOn: null });
const aTurboModel = (supplierId: string | null) => turboModelSchema.parse({ code: `T-${some()}`, name: "Made", bearing: "ball", staging: "single", axialPlayMinMm: "0.03", axialPlayMaxMm: "0.09", radialPlayMaxMm: "0.1", drainBoreMm: "13", replacementCost: "", supplierId: supplierId ?? "" });

let admin: StaffActor;
beforeAll(async () => {
  admin = await aStaffActor("admin");
});

async function idOf(kept: Promise<{ ok: true; id: string } | { ok: false; reason: string }>): Promise<string> {
  const result = await kept;
  if (!result.ok) throw new Error(`should be kept, was ${result.reason}`);
  return result.id;
}

describe("an entry of the catalogue", () => {
  test("is added, read back and corrected, and the trail says by whom", async () => {
    const vehicle = await idOf(keepInCatalogue(admin, "vehicles", null, aVehicle(), ""));
    const kit = await idOf(keepInCatalogue(admin, "kits", null, aKit([vehicle]), ""));
    const loaded = await loadKit(admin, kit);
    if (!loaded.ok || !loaded.entry) throw new Error("should be there");
    expect(loaded.entry.fits).toEqual([vehicle]);
    await idOf(keepInCatalogue(admin, "kits", kit, { ...loaded.entry, name: "Better named", fits: [] }, loaded.seen));
    expect(await loadEntry(admin, "kits", kit)).toMatchObject({ ok: true, entry: { name: "Better named", fits: [] } });
    expect(await database().auditEntry.findMany({ where: { personId: admin.personId, detail: { path: ["id"], equals: kit } }, orderBy: { id: "asc" }, select: { action: true } })).toEqual([{ action: "add_to_catalogue" }, { action: "correct_catalogue" }]);
  });

  test("says what another unit of its model costs, and nothing where the settings' figure is to hold", async () => {
    const typed = { code: `RC-${some()}`, name: "Costed", bearing: "ball", staging: "single", axialPlayMinMm: "0.03", axialPlayMaxMm: "0.09", radialPlayMaxMm: "0.1", drainBoreMm: "13", replacementCost: "612,50", supplierId: "" };
    const model = await idOf(keepInCatalogue(admin, "turbo-models", null, turboModelSchema.parse(typed), ""));
    const loaded = await loadEntry(admin, "turbo-models", model);
    expect(loaded).toMatchObject({ ok: true, entry: { replacementCost: 612.5 } });
    await idOf(keepInCatalogue(admin, "turbo-models", model, turboModelSchema.parse({ ...typed, replacementCost: "" }), loaded.ok ? loaded.seen : ""));
    expect(await loadEntry(admin, "turbo-models", model)).toMatchObject({ entry: { replacementCost: null } });
  });

  test("with a name that is given already is refused, and leaves nothing half done", async () => {
    const kit = aKit();
    await idOf(keepInCatalogue(admin, "kits", null, kit, ""));
    expect(await keepInCatalogue(admin, "kits", null, { ...kit, name: "Another" }, "")).toEqual({ ok: false, reason: "taken" });
    expect(await database().kit.count({ where: { code: kit.code } })).toBe(1);
  });

  test("tied to what has been taken out meanwhile is refused", async () => {
    const kit = aKit([randomUUID()]);
    expect(await keepInCatalogue(admin, "kits", null, kit, "")).toEqual({ ok: false, reason: "not-found" });
    expect(await database().kit.count({ where: { code: kit.code } })).toBe(0);
  });

  test("changed by two at once is changed by one, and the other is told", async () => {
    const id = await idOf(keepInCatalogue(admin, "vehicles", null, aVehicle(), ""));
    const loaded = await loadEntry(admin, "vehicles", id);
    if (!loaded.ok || !loaded.entry) throw new Error("should be there");
    const { entry, seen } = loaded;
    const both = await Promise.all([keepInCatalogue(admin, "vehicles", id, { ...entry, yearTo: 2019 }, seen), keepInCatalogue(admin, "vehicles", id, { ...entry, yearTo: 2020 }, seen)]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    const refused = both.find((result) => !result.ok);
    expect(refused).toMatchObject({ reason: "changed-meanwhile" });
    // With what is there now in view, it is kept.
    expect(refused && "seen" in refused && (await keepInCatalogue(admin, "vehicles", id, { ...entry, yearTo: 2020 }, refused.seen)).ok).toBe(true);
  });

  test("is taken out while nothing stands on it, with what was its own, and never after", async () => {
    const vehicle = await idOf(keepInCatalogue(admin, "vehicles", null, aVehicle(), ""));
    const kit = await idOf(keepInCatalogue(admin, "kits", null, aKit([vehicle]), ""));
    const revision = await idOf(keepInCatalogue(admin, "revisions", null, { kitId: kit, revision: "A", introducedOn: new Date("2025-02-01"), change: "" }, ""));
    const claim = await aClaim();
    await database().claim.update({ where: { id: claim.id }, data: { kitRevisionId: revision, vehicleId: vehicle } });
    for (const [kind, id] of [["kits", kit], ["revisions", revision], ["vehicles", vehicle]] as const) expect(await removeFromCatalogue(admin, kind, id)).toEqual({ ok: false, reason: "in-use" });
    await database().claim.update({ where: { id: claim.id }, data: { kitRevisionId: null, vehicleId: null } });
    expect(await removeFromCatalogue(admin, "vehicles", vehicle)).toEqual({ ok: true });
    expect(await removeFromCatalogue(admin, "kits", kit)).toEqual({ ok: true });
    expect(await database().kitRevision.count({ where: { id: revision } })).toBe(0);
    expect(await removeFromCatalogue(admin, "kits", kit)).toEqual({ ok: false, reason: "not-found" });
  });
});

describe("a supplier", () => {
  test("is said to make a turbo model and the parts of a kit, and stays while they do", async () => {
    const supplier = await idOf(keepInCatalogue(admin, "suppliers", null, aSupplier(), ""));
    const model = await idOf(keepInCatalogue(admin, "turbo-models", null, aTurboModel(supplier), ""));
    const kit = await idOf(keepInCatalogue(admin, "kits", null, { ...aKit(), supplierId: supplier }, ""));
    expect(await loadSupplier(admin, supplier)).toMatchObject({ ok: true, makes: { turboModels: [{ id: model }], kits: [{ id: kit }] } });
    expect(await loadTurboModel(admin, model)).toMatchObject({ ok: true, entry: { supplierId: supplier }, suppliers: expect.arrayContaining([expect.objectContaining({ id: supplier })]) });
    expect(await removeFromCatalogue(admin, "suppliers", supplier)).toEqual({ ok: false, reason: "in-use" });
    await removeFromCatalogue(admin, "turbo-models", model);
    expect(await removeFromCatalogue(admin, "suppliers", supplier)).toEqual({ ok: false, reason: "in-use" });
    await removeFromCatalogue(admin, "kits", kit);
    expect(await removeFromCatalogue(admin, "suppliers", supplier)).toEqual({ ok: true });
  });

  test("who was charged stays, and who has been taken out makes nothing", async () => {
    const supplier = await idOf(keepInCatalogue(admin, "suppliers", null, aSupplier(), ""));
    const { id } = await database().chargeback.create({ data: { supplierId: supplier, currency: "EUR", benchMinute: 1, madeById: admin.personId } });
    expect(await removeFromCatalogue(admin, "suppliers", supplier)).toEqual({ ok: false, reason: "in-use" });
    await database().chargeback.delete({ where: { id } });
    expect(await removeFromCatalogue(admin, "suppliers", supplier)).toEqual({ ok: true });
    expect(await keepInCatalogue(admin, "turbo-models", null, aTurboModel(supplier), "")).toEqual({ ok: false, reason: "not-found" });
  });

  test("is retired by a day, and keeps what they made", async () => {
    const supplier = await idOf(keepInCatalogue(admin, "suppliers", null, aSupplier(), ""));
    const model = await idOf(keepInCatalogue(admin, "turbo-models", null, aTurboModel(supplier), ""));
    const loaded = await loadSupplier(admin, supplier);
    if (!loaded.ok || !loaded.entry) throw new Error("should be there");
    await idOf(keepInCatalogue(admin, "suppliers", supplier, { ...loaded.entry, retiredOn: new Date("2026-03-31") }, loaded.seen));
    expect(await loadSupplier(admin, supplier)).toMatchObject({ entry: { retiredOn: new Date("2026-03-31") }, makes: { turboModels: [{ id: model }] } });
  });
});

describe("two fitters that are one", () => {
  const aFitter = () => database().fitter.create({ data: { name: `Garage ${some()}`, place: "Ort" } });

  test("become one with the claims of both", async () => {
    const [one, other] = [await aFitter(), await aFitter()];
    const [first, second] = [await aClaim(), await aClaim()];
    await database().claim.update({ where: { id: first.id }, data: { fitterId: one.id } });
    await database().claim.update({ where: { id: second.id }, data: { fitterId: other.id } });
    expect(await joinFitters(admin, one.id, other.id)).toEqual({ ok: true, claims: 1 });
    expect(await database().claim.count({ where: { fitterId: other.id } })).toBe(2);
    expect(await database().fitter.count({ where: { id: one.id } })).toBe(0);
  });

  test("joined from both ends at once leave one of them", async () => {
    const [one, other] = [await aFitter(), await aFitter()];
    const both = await Promise.all([joinFitters(admin, one.id, other.id), joinFitters(admin, other.id, one.id)]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await database().fitter.count({ where: { id: { in: [one.id, other.id] } } })).toBe(1);
  });

  test("are found by a part of their name", async () => {
    const fitter = await aFitter();
    const loaded = await loadCatalogue(admin, fitter.name.slice(3).toLowerCase());
    expect(loaded.ok && loaded.fitters.map(({ id }) => id)).toEqual([fitter.id]);
  });
});

describe("what is typed", () => {
  test.each([
    ["a play that ends before it begins", turboModelSchema, { code: "T", name: "T", bearing: "ball", staging: "single", axialPlayMinMm: "0,09", axialPlayMaxMm: "0.03", radialPlayMaxMm: "0.1", drainBoreMm: "13", replacementCost: "", supplierId: "" }, "axialPlayMaxMm"],
    ["a play in words", turboModelSchema, { code: "T", name: "T", bearing: "ball", staging: "single", axialPlayMinMm: "little", axialPlayMaxMm: "0.03", radialPlayMaxMm: "0.1", drainBoreMm: "13", replacementCost: "", supplierId: "" }, "axialPlayMinMm"],
    ["a cost of nothing", turboModelSchema, { code: "T", name: "T", bearing: "ball", staging: "single", axialPlayMinMm: "0.01", axialPlayMaxMm: "0.03", radialPlayMaxMm: "0.1", drainBoreMm: "13", replacementCost: "0", supplierId: "" }, "replacementCost"],
    ["a supplier without a mail address", supplierSchema, { code: "S", name: "S", email: "S", address: "", answerWithinDays: "30", retiredOn: "" }, "email"],
    ["half a day to answer", supplierSchema, { code: "S", name: "S", email: "s@example.com", address: "", answerWithinDays: "0,5", retiredOn: "" }, "answerWithinDays"],
    ["no time to answer", supplierSchema, { code: "S", name: "S", email: "s@example.com", address: "", answerWithinDays: "", retiredOn: "" }, "answerWithinDays"],
    ["a last year before the first", vehicleSchema, { make: "M", model: "M", engine: "E", fuel: "diesel", yearFrom: "2010", yearTo: "2009" }, "yearTo"],
    ["no such day", kitRevisionSchema, { revision: "A", introducedOn: "2026-02-30", change: "" }, "introducedOn"],
  ])("%s is told beside its field", (_, schema, typed, field) => {
    const read = schema.safeParse(typed);
    expect(read.success).toBe(false);
    expect(read.error && Object.keys(messagesOf(read.error))).toEqual([field]);
  });
});
