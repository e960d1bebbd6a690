import { parcelNumberOf } from "@/lib/domain/claims/parcels";
import { makeReference } from "@/lib/domain/claims/reference";
import { CARRIAGE_DAYS } from "@/lib/domain/claims/return-dates";
import { afterWorkingHours, DAY, HOUR, type Instant, isoDate, isoInstant, isWorkingDay } from "./calendar";
import type { World } from "./world";
import { type Row, TABLES } from "./tables";

const CARRIERS = ["Tellmar Parcels", "Overlane Freight"];

const WEEK = 7 * DAY;

/** Where a unit ends, by what was decided about it. */
const ENDS_AT: Readonly<Record<string, string>> = { returned_to_customer: "OUT", scrapped: "OUT", sent_to_supplier: "SUPPLIER" };

const PLACE_NAMES: Readonly<Record<string, string>> = { DOOR: "Door", BENCH: "Bench", "SHELF-1": "Shelf 1", "SHELF-2": "Shelf 2", "SHELF-3": "Shelf 3", QUARANTINE: "Quarantine", SUPPLIER: "Supplier", OUT: "Out of the house" };

/** So many units held as evidence lie past their day, since nobody has come round to them. */
const OVERDUE_EVIDENCE = 4;

const instant = (value: Row[string] | undefined): Instant => Date.parse(String(value));

/**
 * How each unit came and where it was brought: its parcel's number with the carrier, and the steps from the door by shelf
 * and bench to where it ended. A unit under another serial, a parcel that is long overdue, one with a wrong part and two
 * that nobody can place are among them.
 */
export function addCustody(world: World): void {
  giveUpOldEvidence(world);
  addWays(world);
  bringUnits(world);
  addStrays(world);
}

/** Evidence is scrapped or goes to the supplier within days of its day, but for the last few. */
function giveUpOldEvidence({ random, tables, now, staff }: World): void {
  const today = isoDate(Math.floor(now / DAY));
  const past = tables.rows("disposition").filter(({ keep_until }) => keep_until !== null && String(keep_until) < today);
  const byDay = past.toSorted((a, b) => String(a.keep_until).localeCompare(String(b.keep_until)));
  const claims = new Map(tables.rows("return").map(({ id, claim_id }) => [id, claim_id ?? null]));
  for (const held of byDay.slice(0, -OVERDUE_EVIDENCE)) {
    const at = isoInstant(Math.min(now, afterWorkingHours(instant(held.keep_until) + DAY, random.between(1, 40))));
    const kind = random.chance(0.7) ? "scrapped" : "sent_to_supplier";
    tables.amend("disposition", "id", held.id ?? null, { superseded_at: at });
    tables.add("disposition", { ...held, id: random.uuid(), kind, keep_until: null, decided_at: at, superseded_at: null });
    tables.add("audit_entry", { at, actor_kind: "staff", person_id: staff.bench, claim_id: claims.get(held.return_id) ?? null, action: "return_dispositioned", detail: { kind } });
  }
}

/** Carriers and numbers, a unit that came under another serial, and one that set out and was not heard of since. */
function addWays({ random, tables, now }: World): void {
  const waiting = tables.rows("return").findLast(({ state, serial_seen, received_at }) => state === "received" && serial_seen !== null && instant(received_at) < lastNoon(now));
  // Sent on the day it was asked for: its story is told whole weeks earlier, until it is overdue.
  const onTheirWay = tables.rows("return").filter(({ state }) => state === "in_carriage").map(({ id, claim_id, authorised_at }) => ({ id, claim_id, sentAt: instant(authorised_at) + 4 * HOUR }));
  const longest = onTheirWay.toSorted((a, b) => a.sentAt - b.sentAt)[0];
  const weeksEarlier = longest ? Math.max(0, Math.ceil((longest.sentAt - (now - (CARRIAGE_DAYS + 1) * DAY)) / WEEK)) : 0;
  const astray = longest && { ...longest, sentAt: longest.sentAt - weeksEarlier * WEEK };
  const earlier = ([name, value]: [string, Row[string]]): [string, Row[string]][] => {
    if (!value) return [];
    if (/(^|_)at$/.test(name)) return [[name, isoInstant(instant(value) - weeksEarlier * WEEK)]];
    return /_on$/.test(name) ? [[name, isoDate((instant(value) - weeksEarlier * WEEK) / DAY)]] : [];
  };
  const claim = astray && tables.rows("claim").find(({ id }) => id === astray.claim_id);
  const shipment = claim && tables.rows("shipment").find(({ id }) => id === claim.shipment_id);
  // Bought, fitted and complained of: all of it comes before.
  const ofAstray = new Set([claim?.id, shipment?.id, shipment?.order_id].flatMap((id) => id ?? []));
  const isOfAstray = ({ id = null, claim_id = null }: Row) => [id, claim_id].some((one) => one !== null && ofAstray.has(one));
  for (const table of TABLES) tables.revise(table, (row) => (isOfAstray(row) ? Object.fromEntries(Object.entries(row).flatMap(earlier)) : {}));
  const astraySentAt = astray ? isoInstant(astray.sentAt) : null;
  tables.revise("audit_entry", ({ action, claim_id }) => (astray && action === "return_in_carriage" && claim_id === astray.claim_id ? { at: astraySentAt } : {}));
  tables.revise("return", (row) => {
    if (!row.sent_at && !row.received_at) return {};
    const way = { carrier: random.pick(CARRIERS), tracking_number: `${random.pick(["TL", "OV"])}${random.whole(10_000_000, 99_999_999)}` };
    if (row.id === astray?.id) return { ...way, sent_at: astraySentAt };
    return row.id === waiting?.id ? { ...way, serial_seen: `${String(row.serial_seen).slice(0, -2)}93` } : way;
  });
}

function bringUnits(world: World): void {
  const { random, tables, now, staff } = world;
  const benchAt = new Map(tables.rows("audit_entry").filter(({ action }) => action === "return_on_the_bench").map(({ claim_id, at }) => [claim_id, instant(at)]));
  const decided = tables.rows("disposition");
  const stillAtDoorSince = lastNoon(now);
  for (const { id = null, claim_id = null, number, serial_seen = null, received_at } of tables.rows("return")) {
    if (!received_at) continue;
    const [at, parcelId, shelf] = [instant(received_at), random.uuid(), `SHELF-${random.whole(1, 3)}`];
    tables.add("parcel", { id: parcelId, number: parcelNumberOf(String(number)), return_id: id, reason: null, claim_id: null, holds: "", serial: serial_seen, sender: "", arrived_at: isoInstant(at), received_by_id: staff.bench });
    const onBench = benchAt.get(claim_id);
    const shelved = at + random.between(0.5, 2) * HOUR;
    const steps: Step[] = [["DOOR", at]];
    if (onBench ? onBench > shelved + HOUR : at < stillAtDoorSince) steps.push([shelf, shelved]);
    if (onBench) steps.push(["BENCH", onBench]);
    for (const { kind, decided_at } of decided.filter(({ return_id }) => return_id === id)) steps.push([ENDS_AT[String(kind)] ?? shelf, instant(decided_at) + HOUR / 4]);
    bring(world, parcelId, claim_id, steps, random.chance(0.1) ? "packing_damaged" : "sound");
  }
}

function addStrays(world: World): void {
  const { random, tables, now, staff } = world;
  const awaited = tables.rows("return").findLast(({ state }) => state === "authorised")?.claim_id ?? null;
  const strays = [
    { reason: "no_number", claimId: null, holds: "A turbocharger in a crate without a word; oil runs out of it", sender: "A garage in Velden; the rest of the label is wet", condition: "leaking", days: 2.6 },
    { reason: "no_number", claimId: null, holds: "A drain hose and two clamps", sender: "", condition: "sound", days: 1.2 },
    { reason: "wrong_part", claimId: awaited, holds: "A vacuum pump, no turbocharger", sender: "", condition: "sound", days: 0.6 },
  ] as const;
  for (const { reason, claimId, holds, sender, condition, days } of strays) {
    const [at, parcelId, number] = [duringOpeningHours(now - days * DAY), random.uuid(), `P-${makeReference(random.bytes(64))}`];
    tables.add("parcel", { id: parcelId, number, return_id: null, reason, claim_id: claimId, holds, serial: null, sender, arrived_at: isoInstant(at), received_by_id: staff.bench });
    bring(world, parcelId, claimId, [["QUARANTINE", at]], condition);
    tables.add("audit_entry", { at: isoInstant(at), actor_kind: "staff", person_id: staff.bench, claim_id: claimId, action: "take_in_parcel", detail: { number, why: reason } });
  }
}

type Step = readonly [to: string, at: Instant];

function bring({ random, tables, now, staff }: World, parcelId: string, claimId: Row[string], steps: readonly Step[], condition: string): void {
  for (const [index, [to, at]] of steps.entries()) {
    if (at > now) return;
    const from = steps[index - 1]?.[0] ?? null;
    tables.add("handover", { id: random.uuid(), parcel_id: parcelId, number: index + 1, at: isoInstant(at), person_id: staff.bench, from_code: from, to_code: to, condition: index === 0 ? condition : null, note: "" });
    if (index > 0) tables.add("audit_entry", { at: isoInstant(at), actor_kind: "staff", person_id: staff.bench, claim_id: claimId, action: "hand_over_unit", detail: { to, place: PLACE_NAMES[to] ?? to, isGap: false } });
  }
}

/** Noon of the last working day before: what came after it still lies at the door. */
function lastNoon(now: Instant): Instant {
  let day = Math.floor(now / DAY) - 1;
  while (!isWorkingDay(day)) day -= 1;
  return day * DAY + 12 * HOUR;
}

/** The last moment up to then at which somebody was at the door. */
function duringOpeningHours(at: Instant): Instant {
  let day = Math.floor(at / DAY);
  if (at - day * DAY < 8 * HOUR) day -= 1;
  while (!isWorkingDay(day)) day -= 1;
  return Math.min(at, day * DAY + 16.5 * HOUR);
}
