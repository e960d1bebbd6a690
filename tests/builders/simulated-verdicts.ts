import type { Confirmation, Exposure, TrainingExample } from "@/lib/domain/learning/training-example";
import type { CauseCode, FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { DAY, dayOf } from "../../seed/calendar";
import { makeCatalogue } from "../../seed/catalogue";
import { type Complaint, playOut } from "../../seed/causal-model";
import { lookAtBench, lookFor, lookWhenFiling, type Seen } from "../../seed/looking";
import { makeFitters } from "../../seed/names";
import { Random } from "../../seed/random";
import { makeShipments } from "../../seed/shipments";
import { Tables } from "../../seed/tables";

export interface SimulatedShop {
  examples: TrainingExample[];
  exposure: Exposure;
}

/** Of the demo's model at scale 1, how many complaints come of it; only to choose a scale that is large enough. */
const COMPLAINTS_AT_SCALE_1 = 2400;
const TODAY = dayOf("2026-11-25");
const CHECKS: readonly FindingCode[] = ["F12", "F22", "F25", "F34", "F13", "F14", "F17", "F18", "F16", "F28", "F29", "F30", "F35", "F38", "F39", "F40", "F41", "F43", "F44", "F50"];
/** Staff name another cause than the true one in one verdict of ten. */
const VERDICT_IS_WRONG = 0.1;

/**
 * So many confirmed verdicts of a shop whose truth is the demo's causal model, oldest first, with what was shipped. The
 * same seed makes the same shop.
 */
export function simulateShop(seed: number, verdicts: number): SimulatedShop {
  for (let scale = (1.2 * verdicts) / COMPLAINTS_AT_SCALE_1; ; scale *= 1.5) {
    const tables = new Tables();
    const catalogue = makeCatalogue(Random.forTheme(seed, "catalogue"), TODAY, tables);
    const shipments = makeShipments(Random.forTheme(seed, "shipments"), catalogue, TODAY, scale, tables);
    const fitters = makeFitters(Random.forTheme(seed, "fitters"), 64);
    const truth = Random.forTheme(seed, "truth");
    const complaints = shipments.flatMap((shipment) => playOut(truth, shipment, fitters, TODAY) ?? []).sort((a, b) => a.complainedOn - b.complainedOn);
    if (complaints.length < verdicts) continue;
    const random = Random.forTheme(seed, "verdicts");
    const kits = new Map<string, { kit: string; vehicle: string | null; shipped: number }>();
    for (const { kit, vehicle } of shipments) {
      const cell = kits.get(`${kit.code} ${vehicle.key}`) ?? { kit: kit.code, vehicle: vehicle.key, shipped: 0 };
      kits.set(`${kit.code} ${vehicle.key}`, { ...cell, shipped: cell.shipped + 1 });
    }
    // A sample that is spread over all kits and the whole time.
    const kept = complaints.map((complaint) => ({ complaint, at: random.next() })).sort((a, b) => a.at - b.at).slice(0, verdicts);
    const causes = [...new Set(complaints.map(({ truth: { primary } }) => primary))].sort();
    const examples = kept.map(({ complaint }) => confirm(random, complaint, causes)).sort((a, b) => a.confirmedAt.getTime() - b.confirmedAt.getTime());
    return { examples, exposure: { kits: [...kits.values()], claims: complaints.length } };
  }
}

function confirm(random: Random, complaint: Complaint, causes: readonly CauseCode[]): TrainingExample {
  const { truth, shipment, fitter } = complaint;
  const filedBy = fitter && random.chance(0.42) ? "technician" : "customer";
  const firstContact = lookWhenFiling(random, complaint, filedBy).map(observed);
  const later = CHECKS.filter(() => random.chance(0.12)).flatMap((code) => lookFor(random, code, complaint, "technician") ?? []);
  const isReturned = shipment.unit !== null && random.chance(["C14", "C15", "C16", "C17", "C22"].includes(truth.primary) ? 0.85 : 0.16);
  if (isReturned) later.push(...lookAtBench(random, complaint));
  const confirmation: Confirmation = isReturned ? "bench" : later.length > 0 ? "technician" : random.chance(0.5) ? "photo" : "customer_word";
  const primary = random.chance(VERDICT_IS_WRONG) ? random.pick(causes) : truth.primary;
  return {
    confirmation,
    confirmedAt: new Date(complaint.complainedOn * DAY),
    primary,
    contributing: truth.contributing.filter((code) => code !== primary && random.chance(0.7)),
    kit: shipment.kit.code,
    vehicle: shipment.vehicleKnown || random.chance(0.8) ? shipment.vehicle.key : null,
    firstContact,
    later: later.map(observed),
  };
}

function observed({ code, observer, answer, measured }: Seen): Observation {
  return measured === null ? { finding: code, observer, answer: answer ?? "" } : { finding: code, observer, measured };
}
