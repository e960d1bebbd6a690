import "server-only";
import type { CatalogueEntries, EntryKind, KitEntry } from "@/lib/domain/catalogue/entries";
import { type Db, database } from "./client";

/** Every kit, by code, with its revisions, newest first, and how many vehicles it is sold for. */
export function listKitEntries() {
  return database().kit.findMany({
    orderBy: { code: "asc" },
    select: {
      id: true,
      code: true,
      name: true,
      retiredOn: true,
      turboModel: { select: { id: true, code: true } },
      supplier: { select: MAKER },
      revisions: { orderBy: [{ introducedOn: "desc" }, { revision: "desc" }], select: { revision: true, introducedOn: true } },
      _count: { select: { fitments: true } },
    },
  });
}

export function listVehicleEntries() {
  return database().vehicle.findMany({
    orderBy: [{ make: "asc" }, { model: "asc" }, { yearFrom: "asc" }],
    select: { id: true, make: true, model: true, engine: true, fuel: true, yearFrom: true, yearTo: true, _count: { select: { fitments: true } } },
  });
}

export function listTurboModelEntries() {
  return database().turboModel.findMany({ orderBy: { code: "asc" }, select: { id: true, ...TURBO_MODEL, supplier: { select: MAKER }, _count: { select: { kits: true } } } });
}

/** Every supplier, by name, with how much they make. */
export function listSupplierEntries() {
  return database().supplier.findMany({ orderBy: [{ name: "asc" }, { code: "asc" }], select: { id: true, ...SUPPLIER, _count: { select: { turboModels: true, kits: true } } } });
}

/** What a supplier makes, by code. */
export async function listMadeBy(supplierId: string) {
  const byCode = { where: { supplierId }, orderBy: { code: "asc" }, select: { id: true, code: true, name: true } } as const;
  const [turboModels, kits] = await Promise.all([database().turboModel.findMany(byCode), database().kit.findMany(byCode)]);
  return { turboModels, kits };
}

/** The revisions of a kit, newest first, with how many of each were shipped. */
export function listRevisions(kitId: string) {
  return database().kitRevision.findMany({
    where: { kitId },
    orderBy: [{ introducedOn: "desc" }, { revision: "desc" }],
    select: { id: true, revision: true, introducedOn: true, change: true, _count: { select: { shipments: true } } },
  });
}

/** Fitters whose name or place holds the words, those with most claims first, and how many there are. */
export async function listFitters(words: string, most: number) {
  const where = words ? { OR: [{ name: { contains: words, mode: "insensitive" as const } }, { place: { contains: words, mode: "insensitive" as const } }] } : {};
  const [total, fitters] = await Promise.all([
    database().fitter.count({ where }),
    database().fitter.findMany({ where, orderBy: [{ claims: { _count: "desc" } }, { name: "asc" }, { id: "asc" }], take: most, select: { id: true, name: true, place: true, _count: { select: { claims: true } } } }),
  ]);
  return { total, fitters };
}

const MAKER = { id: true, name: true } as const;
const SUPPLIER = { code: true, name: true, email: true, address: true, answerWithinDays: true, retiredOn: true } as const;
const KIT = { code: true, name: true, turboModelId: true, supplierId: true, retiredOn: true } as const;
const REVISION = { kitId: true, revision: true, introducedOn: true, change: true } as const;
const TURBO_MODEL = { code: true, name: true, bearing: true, staging: true, axialPlayMinMm: true, axialPlayMaxMm: true, radialPlayMaxMm: true, drainBoreMm: true, replacementCost: true, supplierId: true } as const;
const VEHICLE = { make: true, model: true, engine: true, fuel: true, yearFrom: true, yearTo: true } as const;
const FITTER = { name: true, place: true } as const;

type Find = { [Kind in EntryKind]: (db: Db, id: string) => Promise<CatalogueEntries[Kind] | null> };
const FIND: Find = {
  kits: async (db, id) => {
    const kit = await db.kit.findUnique({ where: { id }, select: { ...KIT, fitments: { orderBy: { vehicleId: "asc" }, select: { vehicleId: true } } } });
    if (!kit) return null;
    const { fitments, ...entry } = kit;
    return { ...entry, fits: fitments.map(({ vehicleId }) => vehicleId) };
  },
  revisions: (db, id) => db.kitRevision.findUnique({ where: { id }, select: REVISION }),
  vehicles: (db, id) => db.vehicle.findUnique({ where: { id }, select: VEHICLE }),
  "turbo-models": (db, id) => db.turboModel.findUnique({ where: { id }, select: TURBO_MODEL }),
  fitters: (db, id) => db.fitter.findUnique({ where: { id }, select: FITTER }),
  suppliers: (db, id) => db.supplier.findUnique({ where: { id }, select: SUPPLIER }),
};

/** An entry of the catalogue, or null. */
export function findEntry<Kind extends EntryKind>(kind: Kind, id: string, db: Db = database()): Promise<CatalogueEntries[Kind] | null> {
  return FIND[kind](db, id);
}

const TABLES: Readonly<Record<EntryKind, string>> = { kits: "kit", revisions: "kit_revision", vehicles: "vehicle", "turbo-models": "turbo_model", fitters: "fitter", suppliers: "supplier" };

/** An entry of the catalogue, or null. Until the transaction ends nobody else changes it, and nothing new comes to stand on it. */
export async function lockEntry<Kind extends EntryKind>(db: Db, kind: Kind, id: string): Promise<CatalogueEntries[Kind] | null> {
  await db.$queryRawUnsafe(`SELECT 1 FROM "${TABLES[kind]}" WHERE id = $1::uuid FOR UPDATE`, id);
  return findEntry(kind, id, db);
}

type Keep = { [Kind in EntryKind]: (db: Db, id: string | null, entry: CatalogueEntries[Kind]) => Promise<{ id: string }> };
const KEEP: Keep = {
  kits: keepKit,
  revisions: (db, id, data) => (id === null ? db.kitRevision.create({ data }) : db.kitRevision.update({ where: { id }, data })),
  vehicles: (db, id, data) => (id === null ? db.vehicle.create({ data }) : db.vehicle.update({ where: { id }, data })),
  "turbo-models": (db, id, data) => (id === null ? db.turboModel.create({ data }) : db.turboModel.update({ where: { id }, data })),
  fitters: (db, id, data) => (id === null ? db.fitter.create({ data }) : db.fitter.update({ where: { id }, data })),
  suppliers: (db, id, data) => (id === null ? db.supplier.create({ data }) : db.supplier.update({ where: { id }, data })),
};

/** Keeps an entry, a new one where there is no id. */
export async function keepEntry<Kind extends EntryKind>(db: Db, kind: Kind, id: string | null, entry: CatalogueEntries[Kind]): Promise<string> {
  return (await KEEP[kind](db, id, entry)).id;
}

async function keepKit(db: Db, id: string | null, { fits, ...data }: KitEntry): Promise<{ id: string }> {
  const kit = id === null ? await db.kit.create({ data }) : await db.kit.update({ where: { id }, data });
  await db.fitment.deleteMany({ where: { kitId: kit.id, vehicleId: { notIn: [...fits] } } });
  await db.fitment.createMany({ data: fits.map((vehicleId) => ({ kitId: kit.id, vehicleId })), skipDuplicates: true });
  return kit;
}

/** What would be left without it: shipments, claims, units, kits, signals, chargebacks. */
const USES: Readonly<Record<EntryKind, (db: Db, id: string) => Promise<number>[]>> = {
  kits: (db, kitId) => [db.shipment.count({ where: { kitRevision: { kitId } } }), db.claim.count({ where: { kitRevision: { kitId } } }), db.signal.count({ where: { kitId } })],
  revisions: (db, kitRevisionId) => [db.shipment.count({ where: { kitRevisionId } }), db.claim.count({ where: { kitRevisionId } }), db.signal.count({ where: { kitRevisionId } })],
  vehicles: (db, vehicleId) => [db.shipment.count({ where: { vehicleId } }), db.claim.count({ where: { vehicleId } }), db.signal.count({ where: { vehicleId } })],
  "turbo-models": (db, turboModelId) => [db.unit.count({ where: { turboModelId } }), db.kit.count({ where: { turboModelId } })],
  fitters: (db, fitterId) => [db.claim.count({ where: { fitterId } })],
  suppliers: (db, supplierId) => [db.turboModel.count({ where: { supplierId } }), db.kit.count({ where: { supplierId } }), db.chargeback.count({ where: { supplierId } })],
};

/** Whether anything stands on an entry. */
export async function isEntryUsed(db: Db, kind: EntryKind, id: string): Promise<boolean> {
  return (await Promise.all(USES[kind](db, id))).some((count) => count > 0);
}

/** Takes out an entry on which nothing stands. */
export async function deleteEntry(db: Db, kind: EntryKind, id: string): Promise<void> {
  if (kind === "kits") {
    await db.fitment.deleteMany({ where: { kitId: id } });
    await db.kitRevision.deleteMany({ where: { kitId: id } });
  }
  if (kind === "vehicles") await db.fitment.deleteMany({ where: { vehicleId: id } });
  await db.$executeRawUnsafe(`DELETE FROM "${TABLES[kind]}" WHERE id = $1::uuid`, id);
}

/** Gives all claims of one fitter to another. */
export async function giveClaimsToFitter(db: Db, from: string, into: string): Promise<number> {
  return (await db.claim.updateMany({ where: { fitterId: from }, data: { fitterId: into } })).count;
}
