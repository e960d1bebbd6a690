import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { type Day, monthOf } from "./calendar";
import { monthsBefore } from "./catalogue";
import type { Fitter } from "./names";
import type { Random } from "./random";
import { batchOf, type Shipment } from "./shipments";

/**
 * What really happens to a kit after it is shipped: the truth of the demo, which neither the seller nor the scoring
 * knows. Its figures are its own, invented for a believable shop, and are not those of the knowledge editions: the
 * demo would else only show the scoring agreeing with itself.
 *
 * Every fitting has a column of oil. The drain has a vertical fall; losses in the drain and the pressure in the
 * crankcase, both in millimetres of oil, use it up. When they use up more than there is, the housing floods and oil
 * leaves at the seals, the turbine side first. So a poor drain leaks sooner on a worn engine, and two faults that
 * pass alone can leak together. Whatever took most of the fall is the primary cause; the rest contributed.
 *
 * Beside the column stand causes that leak by themselves: tilt, oil level, feed, intake, debris, wear, defects of the
 * unit, carriage, and what is no fault at all. Not every leak is seen, and not every one seen is claimed.
 *
 * Hidden in it, for the reports to find:
 * - kit KH-210 revision C on the Drover 3.0: its one-piece drain line lies almost level over that engine's mount, so
 *   that drains run level or prove too narrow at more than four times the rate;
 * - one batch of the VT-44, made ten months ago, in which a seal ring in eighteen was cut short;
 * - vents in the wind ice up in frost, so that those claims come in winter.
 */
export interface Complaint {
  shipment: Shipment;
  /** Null where the owner fitted it. */
  fitter: Fitter | null;
  fittedOn: Day;
  leaksFrom: Day;
  complainedOn: Day;
  truth: Truth;
}

export type VentRoute = "intake" | "open air" | "catch can" | "capped";
export type Wet = "turbine" | "compressor" | "upstream" | "outside";

/** The state of one fitted unit, as a perfect observer would find it. */
export interface Truth {
  primary: CauseCode;
  contributing: readonly CauseCode[];
  /** For causes that may be the fitter's or the kit's. */
  origin: "fitter" | "kit" | null;
  wet: ReadonlySet<Wet>;
  amount: "film" | "puddle" | "dripping";
  fallMm: number;
  drainBoreMm: number;
  /** Crankcase pressure at load, kPa. */
  crankcaseKPa: number;
  blowByLitresPerMinute: number;
  tiltDeg: number;
  feedBar: number;
  intakeDepressionKPa: number;
  axialPlayMm: number;
  radialPlayMm: number;
  vent: VentRoute;
  distanceKm: number;
  wornEngine: boolean;
  longIdling: boolean;
  previousUnitFailed: boolean;
  /** Every cause that is there, whether it was needed for the leak or not. */
  present: ReadonlySet<CauseCode>;
}

/** A bend of the drawing makes the drain level, and a little narrower; so strong that its signal stands out whatever day the story ends. */
export const HIDDEN_DRAIN_FAULT = { kit: "KH-210", revision: "C", vehicle: "drover30", timesLevel: 7, timesNarrow: 2 } as const;
const SEAL_RING_SHARE = 1 / 18;

/** The batch with the seal rings cut short. */
export function faultyBatch(today: Day): string {
  return batchOf("VT44", monthsBefore(today, 9));
}

/** Chance per fitting by somebody of average care. */
const INCIDENCE = {
  levelDrain: 0.0066,
  blockedDrain: 0.005,
  narrowDrain: 0.0026,
  lowEntry: 0.0016,
  ventRestricted: { "open air": 0.0115, "catch can": 0.0088, capped: 0.034, intake: 0.0013 },
  iceInFrost: 0.0056,
  tilt: 0.0006,
  oilLevel: 0.0011,
  feedJournal: 0.00035,
  feedBall: 0.003,
  fittersFilter: 0.0008,
  boostLeak: 0.0006,
  debris: 0.0005,
  starvation: 0.0009,
  sealRing: 0.0008,
  thrustBearing: 0.00045,
  housing: 0.0003,
  elsewhere: 0.0013,
  carriage: 0.0005,
} as const;

/** Chance that somebody complains of what is normal. */
const NEEDLESS = { ventFilm: 0.0037, lowPressureFilm: 0.011, assemblyOil: 0.0012 } as const;

const NEVER_FITTED = 0.05;
const LEAK_CLAIMED = 0.8;
const WARRANTY_DAYS = 730;
/** kPa for one millimetre of oil at 850 kg/m3. */
const KPA_PER_MM = 0.00834;

/**
 * Plays out one shipment.
 *
 * @returns the complaint that comes of it by `today`, or null as for most
 */
export function playOut(random: Random, shipment: Shipment, fitters: readonly Fitter[], today: Day): Complaint | null {
  if (random.chance(NEVER_FITTED)) return null;
  const fittedOn = shipment.shippedOn + Math.ceil(random.logNormal(15, 0.85));
  const fitter = random.chance(0.52) ? random.pick(fitters) : null;
  const truth = playOutFitting(random, shipment, fitter?.carelessness ?? 1.15, today);
  if (!truth) return null;
  const leaksFrom = onset(random, truth.primary, fittedOn);
  const complainedOn = leaksFrom + 1 + Math.floor(random.exponential(8));
  if (complainedOn > today || complainedOn > shipment.shippedOn + WARRANTY_DAYS) return null;
  return { shipment, fitter, fittedOn, leaksFrom, complainedOn, truth };
}

function playOutFitting(random: Random, shipment: Shipment, carelessness: number, today: Day): Truth | null {
  const { kit, vehicle, unit } = shipment;
  const isHidden = kit.code === HIDDEN_DRAIN_FAULT.kit && shipment.revision.revision === HIDDEN_DRAIN_FAULT.revision && vehicle.key === HIDDEN_DRAIN_FAULT.vehicle;
  const present = new Set<CauseCode>();
  const drain: [CauseCode, number][] = [];
  const crankcase: [CauseCode, number][] = [];
  const alone: CauseCode[] = [];
  let ofTheKit = isHidden;

  const happens = (probability: number, cause: CauseCode): boolean => {
    if (!random.chance(probability)) return false;
    present.add(cause);
    return true;
  };

  if (happens(INCIDENCE.levelDrain * carelessness * (isHidden ? HIDDEN_DRAIN_FAULT.timesLevel : 1), "C01")) drain.push(["C01", random.between(50, 260)]);
  if (happens(INCIDENCE.blockedDrain * carelessness, "C02")) drain.push(["C02", random.between(40, 300)]);
  if (happens(INCIDENCE.narrowDrain * (isHidden ? HIDDEN_DRAIN_FAULT.timesNarrow : 1), "C03")) {
    drain.push(["C03", random.between(50, 240)]);
    ofTheKit ||= random.chance(0.4);
  }
  if (happens(INCIDENCE.lowEntry * carelessness, "C04")) drain.push(["C04", random.between(70, 230)]);

  const vent = kit.drawing.ventToIntake
    ? random.weighted<VentRoute>({ intake: 78, "open air": 12, "catch can": 9, capped: 1 })
    : random.weighted<VentRoute>({ intake: 24, "open air": 43, "catch can": 29, capped: 4 });
  if (happens(INCIDENCE.ventRestricted[vent] * carelessness, "C06")) {
    crankcase.push(["C06", random.between(30, 260)]);
    ofTheKit ||= random.chance(0.12);
  }
  if (vehicle.ventIces && vent !== "intake" && happens(INCIDENCE.iceInFrost, "C07")) crankcase.push(["C07", random.between(120, 380)]);

  const distanceKm = Math.round(random.logNormal(vehicle.distanceKm, 0.4) / 100) * 100;
  const wornEngine = random.chance(1 / (1 + Math.exp((2.45 * vehicle.distanceKm - distanceKm) / (0.22 * vehicle.distanceKm))));
  if (wornEngine) {
    crankcase.push(["C08", random.logNormal(70, 0.5)]);
    present.add("C08");
  }

  const fallMm = Math.max(40, random.normal(kit.drawing.fallMm, 16));
  const restOfFall = fallMm - Math.max(5, random.normal(24, 7)) - Math.max(2, random.normal(22, 9));
  const primaryOfColumn = floods(drain, crankcase, restOfFall);

  if (happens(INCIDENCE.tilt * carelessness, "C05")) alone.push("C05");
  if (happens(INCIDENCE.oilLevel * carelessness, "C09")) alone.push("C09");
  if (happens((kit.turbo?.bearing === "ball" ? INCIDENCE.feedBall : INCIDENCE.feedJournal) * carelessness, "C10")) {
    alone.push("C10");
    ofTheKit ||= random.chance(0.2);
  }
  const longIdling = random.chance(0.28);
  if (happens(kit.drawing.smallFilter * (longIdling ? 1.1 : 0.36), "C11")) {
    alone.push("C11");
    ofTheKit = true;
  } else if (happens(INCIDENCE.fittersFilter, "C11")) alone.push("C11");
  if (happens(INCIDENCE.boostLeak * carelessness, "C12")) alone.push("C12");
  const previousUnitFailed = random.chance(0.34);
  if (happens(INCIDENCE.debris * carelessness * (previousUnitFailed ? 2.2 : 0.4), "C13")) alone.push("C13");
  if (happens(INCIDENCE.starvation * carelessness, "C14")) alone.push("C14");
  if (unit) {
    if (happens(unit.batch === faultyBatch(today) ? SEAL_RING_SHARE : INCIDENCE.sealRing, "C15")) alone.push("C15");
    if (happens(INCIDENCE.thrustBearing, "C16")) alone.push("C16");
    if (happens(INCIDENCE.housing, "C17")) alone.push("C17");
    if (happens(INCIDENCE.carriage, "C22")) alone.push("C22");
  }
  if (happens(INCIDENCE.elsewhere * (wornEngine ? 3 : 1), "C21")) alone.push("C21");

  const real = [...alone, ...(primaryOfColumn ? [primaryOfColumn] : [])];
  const claimed = real.length > 0 && random.chance(LEAK_CLAIMED);
  const needless: CauseCode[] = [];
  if (vent === "intake" && happens(NEEDLESS.ventFilm, "C18")) needless.push("C18");
  if (kit.turbo?.staging === "low_pressure" && happens(NEEDLESS.lowPressureFilm, "C19")) needless.push("C19");
  if (happens(NEEDLESS.assemblyOil, "C20")) needless.push("C20");
  const primary = claimed ? real[0] : needless[0];
  if (!primary) return null;

  const inColumn = new Set([...drain, ...crankcase].map(([cause]) => cause));
  const contributing = [...real.slice(1), ...(primaryOfColumn ? inColumn : [])].filter((cause, index, all) => cause !== primary && all.indexOf(cause) === index);
  const headMm = 22 + crankcase.reduce((sum, [, mm]) => sum + mm, 0);
  const thrustWorn = present.has("C16") || present.has("C14");
  return {
    primary,
    contributing,
    origin: !ORIGIN_IS_OPEN.has(primary) ? null : ofTheKit ? "kit" : "fitter",
    wet: whereWet(random, primary),
    amount: howMuch(random, primary),
    fallMm: Math.round(present.has("C01") ? fallMm * random.between(0.2, 0.6) : fallMm),
    drainBoreMm: Math.round((kit.drawing.drainBoreMm - (present.has("C03") ? random.between(4, 7) : 0)) * 2) / 2,
    crankcaseKPa: headMm * KPA_PER_MM,
    blowByLitresPerMinute: wornEngine ? random.logNormal(125, 0.25) : random.logNormal(42, 0.3),
    tiltDeg: present.has("C05") ? random.between(37, 62) : Math.abs(random.normal(4, 5)),
    feedBar: present.has("C10") ? random.between(5.8, 7.5) : random.between(2.6, 4.8),
    intakeDepressionKPa: present.has("C11") ? random.between(5.6, 9) : random.between(1.2, 3.2),
    axialPlayMm: thrustWorn ? random.between(0.19, 0.55) : random.between(0.03, 0.1),
    radialPlayMm: present.has("C14") ? random.between(0.26, 0.55) : random.between(0.07, 0.17),
    vent,
    distanceKm,
    wornEngine,
    longIdling,
    previousUnitFailed,
    present,
  };
}

/** Causes that may lie with the fitter or with the kit's own parts. */
const ORIGIN_IS_OPEN = new Set<CauseCode>(["C01", "C02", "C03", "C04", "C06", "C10", "C11"]);

/** The cause that took most of the fall where more was taken than was there; C23 where neither side would have leaked alone. */
function floods(drain: readonly [CauseCode, number][], crankcase: readonly [CauseCode, number][], restOfFall: number): CauseCode | null {
  const taken = (side: readonly [CauseCode, number][]) => side.reduce((sum, [, mm]) => sum + mm, 0);
  if (taken(drain) + taken(crankcase) <= restOfFall) return null;
  if (taken(drain) <= restOfFall && taken(crankcase) <= restOfFall) return "C23";
  const [largest] = [...drain, ...crankcase].toSorted((a, b) => b[1] - a[1]);
  return largest?.[0] ?? null;
}

/** The day it begins to leak. What is wrong from the start shows within days; wear, wax and frost take their time. */
function onset(random: Random, cause: CauseCode, fittedOn: Day): Day {
  const meanDays: Readonly<Record<CauseCode, number>> = { C07: 0, C08: 95, C11: 60, C12: 45, C13: 25, C14: 40, C15: 38, C16: 75, C17: 18, C18: 80, C19: 50, C20: 3, C21: 60, C22: 0, C23: 30 };
  const day = fittedOn + Math.floor(random.exponential(meanDays[cause] ?? 6));
  return cause === "C07" ? nextFrost(random, day) : day;
}

function nextFrost(random: Random, from: Day): Day {
  let day = from;
  while (![12, 1, 2].includes(monthOf(day))) day += 1;
  return day + Math.floor(random.exponential(26));
}

function whereWet(random: Random, cause: CauseCode): ReadonlySet<Wet> {
  const chances: Readonly<Record<CauseCode, Partial<Record<Wet, number>>>> = {
    C05: { turbine: 0.75, compressor: 0.5 },
    C11: { compressor: 1, turbine: 0.03 },
    C12: { turbine: 0.45, compressor: 0.6 },
    C13: { turbine: 0.6, compressor: 0.5, outside: 0.1 },
    C14: { turbine: 0.75, compressor: 0.65 },
    C16: { turbine: 0.55, compressor: 0.6 },
    C17: { outside: 0.85, turbine: 0.2 },
    C18: { compressor: 1, upstream: 0.75 },
    C19: { compressor: 1 },
    C20: { turbine: 0.75, compressor: 0.3 },
    C21: { outside: 0.55, turbine: 0.6 },
    C22: { outside: 0.8, turbine: 0.25 },
  };
  if (cause === "C15") return new Set<Wet>([random.chance(0.58) ? "turbine" : "compressor"]);
  const own = chances[cause] ?? { turbine: 0.93, compressor: 0.42 };
  const wet = new Set<Wet>();
  for (const [site, chance] of Object.entries(own) as [Wet, number][]) if (random.chance(chance)) wet.add(site);
  if (wet.size === 0) wet.add("outside" in own ? "outside" : "turbine");
  return wet;
}

function howMuch(random: Random, cause: CauseCode): Truth["amount"] {
  if (cause === "C18" || cause === "C19") return random.weighted({ film: 88, puddle: 11, dripping: 1 });
  if (cause === "C20" || cause === "C11") return random.weighted({ film: 55, puddle: 40, dripping: 5 });
  return random.weighted({ film: 58, puddle: 27, dripping: 15 });
}
