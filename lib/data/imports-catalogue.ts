import "server-only";
import type { Db } from "./client";
import { noteDifference, resolveRows, run, tell, tellDisagreement, tellTwice } from "./imports-staging";

/** What one kind of file needs of the database. Each works on the temporary tables of `imports-staging.ts`. */
export interface KindOfImport {
  /** Finds what each row is about, tells what is wrong, notes what is kept otherwise. */
  check(db: Db): Promise<void>;
  /** Adds the new rows and takes over the differences. */
  write(db: Db): Promise<void>;
}

/** Rows of `resolved` that change something that is kept. */
export const CHANGED = "line IN (SELECT line FROM staged_difference)";

export const suppliersImport: KindOfImport = {
  async check(db) {
    await resolveRows(db, "SELECT s.*, p.id AS kept_id FROM staged AS s LEFT JOIN supplier AS p ON p.code = s.code");
    await tellTwice(db, "code", ["code"]);
    for (const field of ["name", "email", "address", "answer_within_days", "retired_on"]) await noteDifference(db, field, `p.${field}`, "JOIN supplier AS p ON p.id = r.kept_id");
  },
  async write(db) {
    await run(
      db,
      `INSERT INTO supplier (id, code, name, email, address, answer_within_days, retired_on)
       SELECT gen_random_uuid(), code, name, email, coalesce(address, ''), coalesce(answer_within_days, 30), retired_on FROM resolved WHERE kept_id IS NULL`,
    );
    await run(
      db,
      `UPDATE supplier AS p SET name = r.name, email = r.email, address = coalesce(r.address, p.address), answer_within_days = coalesce(r.answer_within_days, p.answer_within_days), retired_on = coalesce(r.retired_on, p.retired_on)
       FROM resolved AS r WHERE r.kept_id = p.id AND r.${CHANGED}`,
    );
  },
};

/** Tells suppliers that there are not. */
const tellSuppliers = (db: Db) => tell(db, "supplier", "unknown-supplier", "supplier IS NOT NULL AND supplier_id IS NULL");

const MODEL_FIELDS = ["name", "bearing", "staging", "axial_play_min_mm", "axial_play_max_mm", "radial_play_max_mm", "drain_bore_mm", "replacement_cost"] as const;

export const turboModelsImport: KindOfImport = {
  async check(db) {
    await resolveRows(db, "SELECT s.*, m.id AS kept_id, p.id AS supplier_id FROM staged AS s LEFT JOIN turbo_model AS m ON m.code = s.code LEFT JOIN supplier AS p ON p.code = s.supplier");
    await tellSuppliers(db);
    await tellTwice(db, "code", ["code"]);
    for (const field of MODEL_FIELDS) {
      const kept = field === "bearing" || field === "staging" ? `m.${field}::text` : `m.${field}`;
      await noteDifference(db, field, kept, "JOIN turbo_model AS m ON m.id = r.kept_id");
    }
    await noteDifference(db, "supplier", "p.code", "JOIN turbo_model AS m ON m.id = r.kept_id LEFT JOIN supplier AS p ON p.id = m.supplier_id");
  },
  async write(db) {
    await run(
      db,
      `INSERT INTO turbo_model (id, code, name, bearing, staging, axial_play_min_mm, axial_play_max_mm, radial_play_max_mm, drain_bore_mm, replacement_cost, supplier_id)
       SELECT gen_random_uuid(), code, name, bearing::bearing, coalesce(staging, 'single')::staging, axial_play_min_mm, axial_play_max_mm, radial_play_max_mm, drain_bore_mm, replacement_cost, supplier_id
       FROM resolved WHERE kept_id IS NULL`,
    );
    await run(
      db,
      `UPDATE turbo_model AS m SET name = r.name, bearing = r.bearing::bearing, staging = coalesce(r.staging::staging, m.staging),
         axial_play_min_mm = r.axial_play_min_mm, axial_play_max_mm = r.axial_play_max_mm, radial_play_max_mm = r.radial_play_max_mm, drain_bore_mm = r.drain_bore_mm, replacement_cost = coalesce(r.replacement_cost, m.replacement_cost), supplier_id = coalesce(r.supplier_id, m.supplier_id)
       FROM resolved AS r WHERE r.kept_id = m.id AND r.${CHANGED}`,
    );
  },
};

export const kitsImport: KindOfImport = {
  async check(db) {
    await resolveRows(
      db,
      `SELECT s.*, k.id AS kit_id, m.id AS turbo_model_id, p.id AS supplier_id, v.id AS kept_id FROM staged AS s
       LEFT JOIN kit AS k ON k.code = s.kit LEFT JOIN kit_revision AS v ON v.kit_id = k.id AND v.revision = s.revision
       LEFT JOIN turbo_model AS m ON m.code = s.turbo_model LEFT JOIN supplier AS p ON p.code = s.supplier`,
    );
    await tellSuppliers(db);
    await tell(db, "turbo_model", "unknown-turbo-model", "turbo_model IS NOT NULL AND turbo_model_id IS NULL");
    await tellTwice(db, "revision", ["kit", "revision"]);
    await tellDisagreement(db, "kit", ["name", "turbo_model", "supplier", "retired_on"]);
    const kit = "JOIN kit AS k ON k.id = r.kit_id LEFT JOIN turbo_model AS m ON m.id = k.turbo_model_id LEFT JOIN supplier AS p ON p.id = k.supplier_id";
    await noteDifference(db, "name", "k.name", kit);
    await noteDifference(db, "turbo_model", "m.code", kit);
    await noteDifference(db, "supplier", "p.code", kit);
    await noteDifference(db, "retired_on", "k.retired_on", kit);
    const revision = "JOIN kit_revision AS v ON v.id = r.kept_id";
    await noteDifference(db, "introduced_on", "v.introduced_on", revision);
    await noteDifference(db, "change", "regexp_replace(v.change, '\\s+', ' ', 'g')", revision);
  },
  async write(db) {
    const ofKit = "SELECT kit, min(name) AS name, min(turbo_model_id::text)::uuid AS turbo_model_id, min(supplier_id::text)::uuid AS supplier_id, min(retired_on) AS retired_on FROM resolved";
    await run(db, `INSERT INTO kit (id, code, name, turbo_model_id, supplier_id, retired_on) SELECT gen_random_uuid(), k.* FROM (${ofKit} WHERE kit_id IS NULL GROUP BY kit) AS k`);
    await run(
      db,
      `UPDATE kit AS k SET name = r.name, turbo_model_id = coalesce(r.turbo_model_id, k.turbo_model_id), supplier_id = coalesce(r.supplier_id, k.supplier_id), retired_on = coalesce(r.retired_on, k.retired_on)
       FROM (${ofKit} WHERE kit_id IS NOT NULL GROUP BY kit) AS r WHERE r.kit = k.code AND k.code IN (SELECT kit FROM resolved WHERE ${CHANGED})`,
    );
    await run(
      db,
      `INSERT INTO kit_revision (id, kit_id, revision, introduced_on, change)
       SELECT gen_random_uuid(), k.id, r.revision, r.introduced_on, coalesce(r.change, '') FROM resolved AS r JOIN kit AS k ON k.code = r.kit WHERE r.kept_id IS NULL`,
    );
    await run(
      db,
      `UPDATE kit_revision AS v SET introduced_on = r.introduced_on, change = coalesce(r.change, v.change) FROM resolved AS r WHERE r.kept_id = v.id AND r.${CHANGED}`,
    );
  },
};

export const vehiclesImport: KindOfImport = {
  async check(db) {
    await resolveRows(
      db,
      `SELECT s.*, v.id AS kept_id FROM staged AS s
       LEFT JOIN vehicle AS v ON v.make = s.make AND v.model = s.model AND v.engine = s.engine AND v.year_from = s.year_from`,
    );
    await tellTwice(db, "model", ["make", "model", "engine", "year_from"]);
    const vehicle = "JOIN vehicle AS v ON v.id = r.kept_id";
    await noteDifference(db, "fuel", "v.fuel::text", vehicle);
    await noteDifference(db, "year_to", "v.year_to", vehicle);
  },
  async write(db) {
    await run(
      db,
      "INSERT INTO vehicle (id, make, model, engine, fuel, year_from, year_to) SELECT gen_random_uuid(), make, model, engine, fuel::fuel, year_from, year_to FROM resolved WHERE kept_id IS NULL",
    );
    await run(db, `UPDATE vehicle AS v SET fuel = r.fuel::fuel, year_to = coalesce(r.year_to, v.year_to) FROM resolved AS r WHERE r.kept_id = v.id AND r.${CHANGED}`);
  },
};

/** Joins to `staged AS s` the vehicle it names; without a year the only one called so. */
export const NAMED_VEHICLE = `
  LEFT JOIN vehicle AS built ON built.make = s.make AND built.model = s.model AND built.engine = s.engine AND built.year_from = s.year_from
  LEFT JOIN (SELECT make, model, engine, count(*) AS vehicles, min(id::text)::uuid AS id FROM vehicle GROUP BY make, model, engine) AS called
    ON s.year_from IS NULL AND called.make = s.make AND called.model = s.model AND called.engine = s.engine`;
export const NAMED_VEHICLE_COLUMNS = "coalesce(built.id, CASE WHEN called.vehicles = 1 THEN called.id END) AS vehicle_id, called.vehicles AS vehicles";

/** Tells vehicles that there are not, or that are several. */
export async function tellVehicles(db: Db): Promise<void> {
  await tell(db, "model", "several-vehicles", "vehicles > 1");
  await tell(db, "model", "unknown-vehicle", "make IS NOT NULL AND vehicle_id IS NULL AND coalesce(vehicles, 0) < 2");
}

export const fitmentsImport: KindOfImport = {
  async check(db) {
    await resolveRows(
      db,
      `SELECT n.*, f.kit_id AS kept_id
       FROM (SELECT s.*, k.id AS kit_id, ${NAMED_VEHICLE_COLUMNS} FROM staged AS s LEFT JOIN kit AS k ON k.code = s.kit ${NAMED_VEHICLE}) AS n
       LEFT JOIN fitment AS f ON f.kit_id = n.kit_id AND f.vehicle_id = n.vehicle_id`,
    );
    await tell(db, "kit", "unknown-kit", "kit_id IS NULL");
    await tellVehicles(db);
    await tellTwice(db, "model", ["kit", "vehicle_id"]);
  },
  async write(db) {
    await run(db, "INSERT INTO fitment (kit_id, vehicle_id) SELECT kit_id, vehicle_id FROM resolved WHERE kept_id IS NULL");
  },
};
