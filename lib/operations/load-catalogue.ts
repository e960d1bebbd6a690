import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findEntry, listFitters, listKitEntries, listMadeBy, listRevisions, listSupplierEntries, listTurboModelEntries, listVehicleEntries } from "@/lib/data/catalogue";
import type { CatalogueEntries, EntryKind } from "@/lib/domain/catalogue/entries";
import { fingerprintOf } from "./fingerprint";
import { refuse, type Refusal } from "./refusal";

const MOST_FITTERS = 50;

/** What is sold, for what, who makes it and who fitted it. */
export async function loadCatalogue(actor: StaffActor, fitterWords: string) {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  const [kits, vehicles, turboModels, suppliers, { total, fitters }] = await Promise.all([listKitEntries(), listVehicleEntries(), listTurboModelEntries(), listSupplierEntries(), listFitters(fitterWords, MOST_FITTERS)]);
  return { ok: true as const, kits, vehicles, turboModels, suppliers, fitters, fittersInAll: total };
}

export type Catalogue = Exclude<Awaited<ReturnType<typeof loadCatalogue>>, Refusal>;

/** One entry to change, with the fingerprint of what the person saw; `null` for one that is to be added. */
export async function loadEntry<Kind extends EntryKind>(actor: StaffActor, kind: Kind, id: string | null): Promise<{ ok: true; entry: CatalogueEntries[Kind] | null; seen: string } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  if (id === null) return { ok: true, entry: null, seen: "" };
  const entry = await findEntry(kind, id);
  return entry ? { ok: true, entry, seen: fingerprintOf(entry) } : { ok: false, reason: "not-found" };
}

/** A kit to change or to add, with its revisions and what it may be tied to. */
export async function loadKit(actor: StaffActor, id: string | null) {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  const loaded = await loadEntry(actor, "kits", id);
  if (!loaded.ok) return loaded;
  const [revisions, vehicles, turboModels, suppliers] = await Promise.all([id === null ? [] : listRevisions(id), listVehicleEntries(), listTurboModelEntries(), listSupplierEntries()]);
  return { ...loaded, revisions, vehicles, turboModels, suppliers };
}

/** A turbo model to change or to add, with who may make it. */
export async function loadTurboModel(actor: StaffActor, id: string | null) {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  const loaded = await loadEntry(actor, "turbo-models", id);
  return loaded.ok ? { ...loaded, suppliers: await listSupplierEntries() } : loaded;
}

/** A supplier to change or to add, with what they make. */
export async function loadSupplier(actor: StaffActor, id: string | null) {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  const loaded = await loadEntry(actor, "suppliers", id);
  return loaded.ok ? { ...loaded, makes: id === null ? { turboModels: [], kits: [] } : await listMadeBy(id) } : loaded;
}
