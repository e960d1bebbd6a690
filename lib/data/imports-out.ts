import "server-only";
import type { ImportKind } from "@/lib/domain/imports/kinds";
import { database } from "./client";

/** The catalogue's kinds of files: a file of shipments names customers and is only taken in. */
export type CatalogueKind = Exclude<ImportKind, "shipments">;

/** What is kept of each kind, by the fields that a file of it has. */
const KEPT: Readonly<Record<CatalogueKind, string>> = {
  suppliers: "SELECT code, name, email, address, answer_within_days, retired_on::text FROM supplier ORDER BY code",
  turbo_models: `SELECT m.code, m.name, bearing::text, staging::text, axial_play_min_mm, axial_play_max_mm, radial_play_max_mm, drain_bore_mm, replacement_cost, s.code AS supplier
    FROM turbo_model AS m LEFT JOIN supplier AS s ON s.id = m.supplier_id ORDER BY m.code`,
  kits: `SELECT k.code AS kit, k.name, m.code AS turbo_model, s.code AS supplier, v.revision, v.introduced_on::text, v.change, k.retired_on::text
    FROM kit AS k JOIN kit_revision AS v ON v.kit_id = k.id LEFT JOIN turbo_model AS m ON m.id = k.turbo_model_id LEFT JOIN supplier AS s ON s.id = k.supplier_id ORDER BY k.code, v.introduced_on, v.revision`,
  vehicles: "SELECT make, model, engine, fuel::text, year_from, year_to FROM vehicle ORDER BY make, model, engine, year_from",
  fitments: `SELECT k.code AS kit, v.make, v.model, v.engine, v.year_from
    FROM fitment AS f JOIN kit AS k ON k.id = f.kit_id JOIN vehicle AS v ON v.id = f.vehicle_id ORDER BY k.code, v.make, v.model, v.engine, v.year_from`,
};

export function listCatalogue(kind: CatalogueKind): Promise<Record<string, string | number | null>[]> {
  return database().$queryRawUnsafe(KEPT[kind]);
}
