import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { tellBenchWork } from "./bench-work";
import { DAY, type Day, HOUR } from "./calendar";
import { makeCatalogue } from "./catalogue";
import { addChargebacks } from "./chargebacks";
import { type Complaint, playOut } from "./causal-model";
import type { World } from "./world";
import { type PictureToStore, tellClaim } from "./claims";
import { addCustody } from "./custody";
import { tellHandWrittenClaims } from "./hand-written-claims";
import { leaveDeskTraces } from "./desk-traces";
import { letSomeWriteInGerman } from "./german-customers";
import { writeLetters } from "./letters";
import { makeFitters } from "./names";
import { addPeople, type StaffRow } from "./people";
import type { Picture } from "./photos/render";
import type { SceneName } from "./photos/scenes";
import { addQueueLife } from "./queue-life";
import { Random } from "./random";
import { giveSecondOpinions } from "./second-opinions";
import { makeShipments, type Shipment } from "./shipments";
import { Tables } from "./tables";
import { addWarrantyAndMoney } from "./warranty-and-money";

export interface DemoPlan {
  seed: number;
  /** The last day of the story. */
  today: Day;
  /** 1 is the whole demo; a smaller share makes a small world with the same hand-written claims. */
  scale: number;
  edition: Edition;
  staff: readonly StaffRow[];
  pictures: ReadonlyMap<SceneName, Picture>;
  /** The address customers' links lead to. */
  origin: string;
}

export interface Demo {
  tables: Tables;
  pictures: readonly PictureToStore[];
  /** The truth behind the claims: never written. */
  shipments: readonly Shipment[];
  complaints: readonly Complaint[];
}

/** The hour of the last day at which the story stands, UTC. */
export const STORY_ENDS_AT = 6;

/** The whole demo, in memory. The same plan makes the same demo. */
export function buildDemo(plan: DemoPlan): Demo {
  const { seed, today, scale } = plan;
  const tables = new Tables();
  const catalogue = makeCatalogue(Random.forTheme(seed, "catalogue"), today, tables);
  const fitters = makeFitters(Random.forTheme(seed, "fitters"), 64);
  for (const { id, name, place } of fitters) tables.add("fitter", { id, name, place });
  const shipments = makeShipments(Random.forTheme(seed, "shipments"), catalogue, today, scale, tables);
  const truth = Random.forTheme(seed, "truth");
  const complaints = shipments.flatMap((shipment) => playOut(truth, shipment, fitters, today) ?? []).toSorted((a, b) => a.complainedOn - b.complainedOn);

  const world: World = {
    random: Random.forTheme(seed, "claims"),
    tables,
    now: today * DAY + STORY_ENDS_AT * HOUR,
    edition: plan.edition,
    staff: addPeople(Random.forTheme(seed, "people"), plan.staff, today, tables),
    pictures: plan.pictures,
  };
  const pictures: PictureToStore[] = [];
  for (const complaint of complaints) {
    const told = tellClaim(world, complaint, null);
    if (!told) continue;
    pictures.push(...told.pictures);
    // Some write twice, impatient or from a second browser.
    if (world.random.chance(0.014)) pictures.push(...(tellClaim(world, again(world.random, complaint), told)?.pictures ?? []));
  }
  const complainedOf = new Set(complaints.map(({ shipment }) => shipment.id));
  pictures.push(...tellHandWrittenClaims({ ...world, random: Random.forTheme(seed, "hand-written claims") }, { shipments, complainedOf, fitters }, plan.origin));
  const taken = new Set(tables.rows("claim").map(({ shipment_id }) => String(shipment_id)));
  pictures.push(...tellBenchWork({ ...world, random: Random.forTheme(seed, "bench work") }, { shipments, complainedOf: taken, fitters }));
  leaveDeskTraces({ ...world, random: Random.forTheme(seed, "desk traces") });
  giveSecondOpinions({ ...world, random: Random.forTheme(seed, "second opinions") });
  addWarrantyAndMoney({ ...world, random: Random.forTheme(seed, "warranty and money") });
  addQueueLife({ ...world, random: Random.forTheme(seed, "life of the queue") });
  addChargebacks({ ...world, random: Random.forTheme(seed, "chargebacks") });
  addCustody({ ...world, random: Random.forTheme(seed, "custody") });
  letSomeWriteInGerman({ ...world, random: Random.forTheme(seed, "German customers") });
  writeLetters(world);
  tables.sort("audit_entry", "at");
  return { tables, pictures, shipments, complaints };
}

function again(random: Random, complaint: Complaint): Complaint {
  return { ...complaint, complainedOn: complaint.complainedOn + random.whole(1, 3) };
}
