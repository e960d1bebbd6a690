import { parcelNumberOf } from "@/lib/domain/claims/parcels";
import { makeReference } from "@/lib/domain/claims/reference";
import { CARRIAGE_DAYS } from "@/lib/domain/claims/return-dates";
import { DAY, HOUR, type Instant, isoInstant } from "./calendar";
import type { World } from "./claim-story";
import { type Row, TABLES } from "./tables";

const CARRIERS = ["Tellmar Parcels", "Overlane Freight"];

const WEEK = 7 * DAY;

/** Where a unit ends, by what was decided about it. */
const ENDS_AT: Readonly<Record<string, string>> = { returned_to_customer: "OUT", scrapped: "OUT", sent_to_supplier: "SUPPLIER" };

const PLACE_NAMES: Readonly<Record<string, string>> = { DOOR: "Door", BENCH: "Bench", "SHELF-1": "Shelf 1", "SHELF-2": "Shelf 2", "SHELF-3": "Shelf 3", QUARANTINE: "Quarantine", SUPPLIER: "Supplier", OUT: "Out of the house" };

const instant = (value: Row[string] | undefined): Instant => Date.parse(String(value));

/**
 * How each unit came and where it was brought: its parcel's number with the carrier, and the steps from the door by bench
 * to shelf. A unit under another serial, a parcel that is long overdue and two that nobody can place are among them.
 */
export function addCustody({ random, tables, now, staff }: World): void {
  const dispositions = new Map(tables.rows("disposition").map((row) => [row.return_id, row]));

  function bring(parcelId: string, claimId: Row[string], steps: readonly (readonly [to: string, at: Instant])[], condition: string): void {
    for (const [index, [to, at]] of steps.entries()) {
      if (at > now) return;
      const from = steps[index - 1]?.[0] ?? null;
      tables.add("handover", { id: random.uuid(), parcel_id: parcelId, number: index + 1, at: isoInstant(at), person_id: staff.bench, from_code: from, to_code: to, condition: index === 0 ? condition : null, note: "" });
      if (index > 0) tables.add("audit_entry", { at: isoInstant(at), actor_kind: "staff", person_id: staff.bench, claim_id: claimId, action: "hand_over_unit", detail: { to, place: PLACE_NAMES[to] ?? to, isGap: false } });
    }
  }

  const waiting = tables.rows("return").findLast(({ state, serial_seen }) => state === "received" && serial_seen !== null);
  // Sent on the day it was asked for, and not heard of since: its story is told whole weeks earlier, until it is overdue.
  const onTheirWay = tables.rows("return").filter(({ state }) => state === "in_carriage").map(({ id, claim_id, authorised_at }) => ({ id, claim_id, sentAt: instant(authorised_at) + 4 * HOUR }));
  const longest = onTheirWay.toSorted((a, b) => a.sentAt - b.sentAt)[0];
  const weeksEarlier = longest ? Math.max(0, Math.ceil((longest.sentAt - (now - (CARRIAGE_DAYS + 1) * DAY)) / WEEK)) : 0;
  const astray = longest && { ...longest, sentAt: longest.sentAt - weeksEarlier * WEEK };
  const earlier = ([name, value]: [string, Row[string]]) => (/(^|_)at$/.test(name) && value ? [[name, isoInstant(instant(value) - weeksEarlier * WEEK)]] : []);
  for (const table of TABLES) tables.revise(table, (row) => (astray && astray.claim_id === (table === "claim" ? row.id : row.claim_id) ? Object.fromEntries(Object.entries(row).flatMap(earlier)) : {}));
  const astraySentAt = astray ? isoInstant(astray.sentAt) : null;
  tables.revise("audit_entry", ({ action, claim_id }) => (astray && action === "return_in_carriage" && claim_id === astray.claim_id ? { at: astraySentAt } : {}));
  tables.revise("return", (row) => {
    if (!row.sent_at && !row.received_at) return {};
    const way = { carrier: random.pick(CARRIERS), tracking_number: `${random.pick(["TL", "OV"])}${random.whole(10_000_000, 99_999_999)}` };
    if (row.id === astray?.id) return { ...way, sent_at: astraySentAt };
    return row.id === waiting?.id ? { ...way, serial_seen: `${String(row.serial_seen).slice(0, -2)}93` } : way;
  });

  for (const { id, claim_id = null, number, state, serial_seen = null, received_at } of tables.rows("return")) {
    if (!received_at) continue;
    const [at, parcelId] = [instant(received_at), random.uuid()];
    tables.add("parcel", { id: parcelId, number: parcelNumberOf(String(number)), return_id: id ?? null, reason: null, claim_id: null, holds: "", serial: serial_seen, sender: "", arrived_at: isoInstant(at), received_by_id: staff.bench });
    const disposition = dispositions.get(id ?? null);
    const decidedAt = disposition ? instant(disposition.decided_at) : now;
    const shelf = `SHELF-${random.whole(1, 3)}`;
    const benchAt = state === "dispositioned" ? at + (decidedAt - at) / 2 : at + 2 * HOUR;
    const steps: (readonly [string, Instant])[] = [["DOOR", at]];
    if (state !== "received") steps.push(["BENCH", Math.min(benchAt, now)]);
    if (disposition) steps.push([ENDS_AT[String(disposition.kind)] ?? shelf, decidedAt + HOUR]);
    bring(parcelId, claim_id, steps, random.chance(0.1) ? "packing_damaged" : "sound");
  }

  const strays = [
    { holds: "A turbocharger in a crate without a word; oil runs out of it", sender: "A garage in Velden; the rest of the label is wet", condition: "leaking", days: 2.6 },
    { holds: "A drain hose and two clamps", sender: "", condition: "sound", days: 1.2 },
  ] as const;
  for (const { holds, sender, condition, days } of strays) {
    const [at, parcelId] = [now - days * DAY, random.uuid()];
    tables.add("parcel", { id: parcelId, number: `P-${makeReference(random.bytes(64))}`, return_id: null, reason: "no_number", claim_id: null, holds, serial: null, sender, arrived_at: isoInstant(at), received_by_id: staff.bench });
    bring(parcelId, null, [["QUARANTINE", at]], condition);
  }
}
