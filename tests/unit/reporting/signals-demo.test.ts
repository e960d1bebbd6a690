import { describe, expect, it } from "vitest";
import { findSignals } from "@/lib/domain/reporting/signals";
import type { ClaimsFiled, UnitsShipped } from "@/lib/domain/reporting/signals-world";
import { dayOf, isoDate } from "../../../seed/calendar";
import { makeCatalogue } from "../../../seed/catalogue";
import { faultyBatch, HIDDEN_DRAIN_FAULT, playOut } from "../../../seed/causal-model";
import { makeFitters } from "../../../seed/names";
import { Random } from "../../../seed/random";
import { makeShipments } from "../../../seed/shipments";
import { Tables } from "../../../seed/tables";

const today = dayOf("2026-11-25");

/** The whole demo played out, every complaint decided as it really was. */
function playedOut(seed: number) {
  const tables = new Tables();
  const catalogue = makeCatalogue(Random.forTheme(seed, "catalogue"), today, tables);
  const fitters = makeFitters(Random.forTheme(seed, "fitters"), 64);
  const shipments = makeShipments(Random.forTheme(seed, "shipments"), catalogue, today, 1, tables);
  const fate = Random.forTheme(seed, "fate");
  const shipped = new Map<string, UnitsShipped>();
  const claims: ClaimsFiled[] = [];
  for (const shipment of shipments) {
    const { kit, revision, vehicle, vehicleKnown, unit, shippedOn } = shipment;
    const line = { kitId: kit.code, kitRevisionId: `${kit.code} ${revision.revision}`, batch: unit?.batch ?? null, month: isoDate(shippedOn).slice(0, 7) };
    const vehicleId = vehicleKnown ? vehicle.key : null;
    const key = `${line.kitRevisionId} ${vehicleId} ${line.batch} ${line.month}`;
    shipped.set(key, { ...line, vehicleId, units: (shipped.get(key)?.units ?? 0) + 1 });
    const complaint = playOut(fate, shipment, fitters, today);
    if (complaint) claims.push({ ...line, vehicleId: vehicle.key, filed: isoDate(complaint.complainedOn).slice(0, 7), cause: complaint.truth.primary, claims: 1 });
  }
  return { shipped: [...shipped.values()], claims, today: isoDate(today) };
}

describe("the demo's hidden faults", () => {
  it.each([7, 8])("stand at the top of the signals, and frost does not look like a kit's fault (seed %i)", { timeout: 30_000 }, (seed) => {
    const { signals } = findSignals(playedOut(seed));
    const { kit, revision, vehicle } = HIDDEN_DRAIN_FAULT;
    const named = signals.map(({ cause, scope }) => `${cause} ${scope.batch ?? `${scope.kitRevisionId ?? scope.kitId} ${scope.vehicleId ?? ""}`}`.trim());
    expect(named.slice(0, 2), named.join(", ")).toEqual([`C15 ${faultyBatch(today)}`, `C01 ${kit} ${revision} ${vehicle}`]);
    // The drain that was made level is narrow too; nothing else stands out.
    expect(named.slice(2).filter((name) => name !== `C03 ${kit} ${revision} ${vehicle}`)).toEqual([]);
  });
});
