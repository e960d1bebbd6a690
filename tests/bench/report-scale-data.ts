import { createWriteStream } from "node:fs";
import { chmod, mkdir, rm } from "node:fs/promises";
import { once } from "node:events";
import path from "node:path";
import type pg from "pg";

/** A history of the size asked for, as files that the server reads with COPY. The same sizes make the same history. */
export interface Size {
  shipments: number;
  claims: number;
}

const KITS = 40;
const REVISIONS = 3;
const VEHICLES = 120;
const VEHICLES_A_KIT = 8;
const MONTHS = 60;
const FITTERS = 2_000;
const FIRST_MONTH = Date.UTC(2021, 11, 1);
const NOW = Date.UTC(2026, 10, 25);
const DAY = 86_400_000;

const CAUSES = [
  ["C01", "fit"],
  ["C02", "fit"],
  ["C04", "kit"],
  ["C07", "engine"],
  ["C11", "engine"],
  ["C15", "unit"],
  ["C16", "unit"],
  ["C18", "normal"],
  ["C20", "transit"],
  ["C22", "elsewhere"],
] as const;

/** Ids that sort as they were made, as real ones do: `kind` keeps tables apart. */
const id = (kind: number, number: number) => `0198${kind.toString(16).padStart(4, "0")}-0000-7000-8000-${number.toString(16).padStart(12, "0")}`;
const day = (instant: number) => new Date(instant).toISOString().slice(0, 10);
const LETTERS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";

function reference(number: number): string {
  let rest = number;
  const letters = Array.from({ length: 10 }, () => {
    const letter = LETTERS[rest % LETTERS.length];
    rest = Math.floor(rest / LETTERS.length);
    return letter;
  }).join("");
  return `${letters.slice(0, 4)}-${letters.slice(4, 7)}-${letters.slice(7)}`;
}

/** Numbers from 0 to before 1, the same on every run. */
function luck(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

export const kitCode = (kit: number) => `BK-${String(kit).padStart(3, "0")}`;
export const vehicleId = (vehicle: number) => id(2, vehicle);
/** The vehicles a kit is sold for. */
export const vehiclesOf = (kit: number) => Array.from({ length: VEHICLES_A_KIT }, (_, index) => (kit * 3 + index) % VEHICLES);

/** One table's file, written with back pressure. */
class TableFile {
  readonly file: string;
  readonly #stream;
  #waiting: string[] = [];

  constructor(
    folder: string,
    readonly table: string,
    readonly columns: string,
  ) {
    this.file = path.join(folder, `${table}.csv`);
    this.#stream = createWriteStream(this.file);
  }

  async add(line: string): Promise<void> {
    this.#waiting.push(line);
    if (this.#waiting.length >= 20_000) await this.#send();
  }

  async #send(): Promise<void> {
    const isRoomy = this.#stream.write(`${this.#waiting.join("\n")}\n`);
    this.#waiting = [];
    if (!isRoomy) await once(this.#stream, "drain");
  }

  async end(): Promise<void> {
    if (this.#waiting.length > 0) await this.#send();
    this.#stream.end();
    await once(this.#stream, "finish");
    await chmod(this.file, 0o644);
  }
}

/**
 * Fills an empty, migrated database of our own server. Triggers, foreign keys and indexes are left out meanwhile, and the
 * indexes made again at the end: what is measured later is a database as it would have grown.
 *
 * @param folder where the server may read
 */
export async function copyHistory(client: pg.Client, folder: string, { shipments, claims }: Size): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o755 });
  const next = luck(7);
  const nextWait = luck(8);
  const below = (limit: number) => Math.floor(next() * limit);
  const open: TableFile[] = [];
  const table = (name: string, columns: string) => {
    const file = new TableFile(folder, name, columns);
    open.push(file);
    return file;
  };

  const person = table("person", "id,email,name,role");
  await person.add(`${id(9, 1)},desk@bench.example,Desk,support`);
  const turbos = table("turbo_model", "id,code,name,bearing,axial_play_min_mm,axial_play_max_mm,radial_play_max_mm,drain_bore_mm");
  const kits = table("kit", "id,code,name");
  const revisions = table("kit_revision", "id,kit_id,revision,introduced_on,change");
  const vehicles = table("vehicle", "id,make,model,engine,fuel,year_from");
  const fitments = table("fitment", "kit_id,vehicle_id");
  const fitters = table("fitter", "id,name,place");
  const order = table("order", "id,number,customer_email,customer_name,country,placed_on");
  await order.add(`${id(5, 1)},BENCH-1,a@example.com,A,DE,2021-12-01`);
  for (let number = 0; number < VEHICLES; number += 1) await vehicles.add(`${vehicleId(number)},Make${number % 12},Model${number},2.0 D,diesel,2010`);
  for (let number = 0; number < FITTERS; number += 1) await fitters.add(`${id(4, number)},Garage ${number},Town ${number % 200}`);
  for (let kit = 0; kit < KITS; kit += 1) {
    await turbos.add(`${id(3, kit)},BT${kit},Turbo ${kit},journal,0.03,0.09,0.45,13`);
    await kits.add(`${id(0, kit)},${kitCode(kit)},Kit ${kit}`);
    for (let revision = 0; revision < REVISIONS; revision += 1)
      await revisions.add(`${id(1, kit * REVISIONS + revision)},${id(0, kit)},${"ABC"[revision]},${day(FIRST_MONTH + revision * 20 * 30.4 * DAY)},change`);
    for (const vehicle of vehiclesOf(kit)) await fitments.add(`${id(0, kit)},${vehicleId(vehicle)}`);
  }

  const units = table("unit", "id,serial,batch,turbo_model_id");
  const shipped = table("shipment", "id,order_id,kit_revision_id,unit_id,vehicle_id,shipped_on");
  const filed = table("claim", "id,reference,filing_key,stage,filed_by,contact_name,contact_email,shipment_id,unit_id,kit_revision_id,vehicle_id,fitter_id,fitted_on,filed_at,promised_at,first_answer_at,decided_at,settled_at,updated_at");
  const verdicts = table("verdict", "id,claim_id,primary_cause,contributing_causes,attribution,origin,way,basis,remedy,letter,decided_by_id,decided_at");
  const settlements = table("settlement", "id,claim_id,kind,amount_minor,seller_minor,currency,booked_by_id");
  const rankings = table("ranking", "id,claim_id,edition_number,observations,result");
  const result = JSON.stringify({ notExplained: 0.05, causes: CAUSES.map(([code, attribution], index) => ({ code, attribution, probability: 0.5 / (index + 1) })) }).replaceAll('"', '""');
  let claim = 0;
  for (let number = 0; number < shipments; number += 1) {
    // More is sold of some kits, and in later months.
    const kit = Math.floor(next() ** 1.5 * KITS);
    const month = Math.floor(next() ** 0.8 * MONTHS);
    const shippedAt = FIRST_MONTH + Math.floor((month + next()) * 30.4) * DAY;
    const revision = kit * REVISIONS + Math.min(REVISIONS - 1, Math.floor(month / 20));
    const vehicle = vehiclesOf(kit)[below(VEHICLES_A_KIT)] ?? 0;
    const isKnown = next() < 0.8;
    await units.add(`${id(6, number)},S${number},BT${kit}-${day(shippedAt - 30 * DAY).slice(0, 7)},${id(3, kit)}`);
    await shipped.add(`${id(7, number)},${id(5, 1)},${id(1, revision)},${id(6, number)},${isKnown ? vehicleId(vehicle) : ""},${day(shippedAt)}`);
    // As many claims as are left, spread evenly over the shipments that are left.
    if (next() * (shipments - number) >= claims - claim) continue;
    claim += 1;
    const fittedAt = Math.min(NOW, shippedAt + (7 + below(40)) * DAY);
    const filedAt = Math.min(NOW, fittedAt + Math.floor(-Math.log(1 - next()) * 70) * DAY);
    const fate = next();
    const stage = fate < 0.02 ? "in_review" : fate < 0.04 ? "withdrawn" : fate < 0.9 ? "settled" : "decided";
    const isDecided = stage === "decided" || stage === "settled";
    const later = (hours: number) => new Date(filedAt + Math.floor(nextWait() * DAY) - Math.floor(Math.log(1 - nextWait()) * hours) * 3_600_000).toISOString();
    const at = new Date(filedAt).toISOString();
    const answeredAt = isDecided || nextWait() < 0.5 ? later(20) : "";
    const decidedAt = later(120);
    await filed.add(
      `${id(8, claim)},${reference(claim)},${id(10, claim)},${stage},customer,A,a@example.com,${id(7, number)},${id(6, number)},${id(1, revision)},${vehicleId(vehicle)},${next() < 0.6 ? id(4, Math.floor(next() ** 2 * FITTERS)) : ""},${day(fittedAt)},${at},${new Date(filedAt + 2 * DAY).toISOString()},${answeredAt},${isDecided ? decidedAt : ""},${stage === "settled" ? decidedAt : ""},${at}`,
    );
    if (isDecided) {
      const [cause, attribution] = CAUSES[Math.floor(next() ** (1 + (kit % 3)) * CAUSES.length)] ?? CAUSES[0];
      const origin = attribution === "fit" ? "fitter" : attribution === "kit" ? "kit" : "";
      await verdicts.add(`${id(11, claim)},${id(8, claim)},${cause},${cause !== "C07" && next() < 0.1 ? "{C07}" : "{}"},${attribution},${origin},confirmed,technician,advice,Letter,${id(9, 1)},${decidedAt}`);
      if (stage === "settled" && next() < 0.5) {
        const amount = 500 + below(90_000);
        await settlements.add(`${id(12, claim)},${id(8, claim)},goodwill,${amount},${amount},EUR,${id(9, 1)}`);
      }
    } else if (stage === "in_review") await rankings.add(`${id(13, claim)},${id(8, claim)},1,[],"${result}"`);
  }

  await client.query("SET session_replication_role = replica");
  for (const { table: name } of open) await dropIndexes(client, name);
  for (const file of open) {
    await file.end();
    await client.query(`COPY "${file.table}" (${file.columns}) FROM '${file.file}' WITH (FORMAT csv, NULL '')`);
    await rm(file.file);
  }
  for (const definition of dropped.splice(0)) await client.query(definition);
  await client.query("SET session_replication_role = origin");
  await client.query("VACUUM ANALYZE");
}

const dropped: string[] = [];

/** All but what keeps a constraint. */
async function dropIndexes(client: pg.Client, table: string): Promise<void> {
  const { rows } = await client.query<{ name: string; definition: string }>(
    `SELECT indexrelid::regclass::text AS name, pg_get_indexdef(indexrelid) AS definition FROM pg_index
     WHERE indrelid = $1::regclass AND NOT EXISTS (SELECT FROM pg_constraint WHERE conindid = indexrelid)`,
    [`"${table}"`],
  );
  for (const { name, definition } of rows) {
    await client.query(`DROP INDEX ${name}`);
    dropped.push(definition);
  }
}
