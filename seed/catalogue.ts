import { type Day, isoDate } from "./calendar";
import type { Random } from "./random";
import type { Tables } from "./tables";

interface TurboModelPlan {
  code: string;
  name: string;
  bearing: "journal" | "ball";
  staging: "single" | "low_pressure" | "high_pressure";
  axialPlayMm: readonly [number, number];
  radialPlayMaxMm: number;
  drainBoreMm: number;
}

/** What the drawing of a kit asks of the vehicle: the causal model starts from it. */
export interface KitDrawing {
  /** Vertical fall of the drain as drawn, mm. */
  fallMm: number;
  /** Bore of the drain in the box, mm. */
  drainBoreMm: number;
  /** The kit's hose leads the crankcase vent into the intake. */
  ventToIntake: boolean;
  /** How often the filter in the box is too small for the air drawn. */
  smallFilter: number;
}

interface RevisionPlan {
  revision: string;
  /** Months before the last day of the demo. */
  monthsAgo: number;
  change: string;
}

interface KitPlan {
  code: string;
  name: string;
  turbo: string | null;
  fits: readonly string[];
  /** Share of all shipments, relative. */
  sales: number;
  drawing: KitDrawing;
  revisions: readonly RevisionPlan[];
  retiredMonthsAgo?: number;
}

interface VehiclePlan {
  key: string;
  make: string;
  model: string;
  engine: string;
  fuel: "diesel" | "petrol";
  years: readonly [number, number | null];
  /** Typical distance when the kit is fitted, km. */
  distanceKm: number;
  /** The vent lies in the wind: it ices in frost. */
  ventIces: boolean;
}

const TURBO_MODELS: readonly TurboModelPlan[] = [
  { code: "VT34", name: "Vortane VT-34", bearing: "journal", staging: "single", axialPlayMm: [0.03, 0.09], radialPlayMaxMm: 0.15, drainBoreMm: 13 },
  { code: "VT36", name: "Vortane VT-36", bearing: "journal", staging: "single", axialPlayMm: [0.03, 0.09], radialPlayMaxMm: 0.15, drainBoreMm: 13 },
  { code: "VT36B", name: "Vortane VT-36 ball bearing", bearing: "ball", staging: "single", axialPlayMm: [0.02, 0.06], radialPlayMaxMm: 0.1, drainBoreMm: 13 },
  { code: "VT40", name: "Vortane VT-40", bearing: "journal", staging: "single", axialPlayMm: [0.03, 0.1], radialPlayMaxMm: 0.16, drainBoreMm: 16 },
  { code: "VT40B", name: "Vortane VT-40 ball bearing", bearing: "ball", staging: "single", axialPlayMm: [0.02, 0.06], radialPlayMaxMm: 0.1, drainBoreMm: 16 },
  { code: "VT44", name: "Vortane VT-44", bearing: "journal", staging: "single", axialPlayMm: [0.04, 0.12], radialPlayMaxMm: 0.17, drainBoreMm: 18 },
  { code: "VT50", name: "Vortane VT-50", bearing: "journal", staging: "single", axialPlayMm: [0.04, 0.13], radialPlayMaxMm: 0.18, drainBoreMm: 19 },
  { code: "VT50H", name: "Vortane VT-50, high-pressure stage", bearing: "journal", staging: "high_pressure", axialPlayMm: [0.04, 0.13], radialPlayMaxMm: 0.18, drainBoreMm: 19 },
  { code: "VT66L", name: "Vortane VT-66, low-pressure stage", bearing: "journal", staging: "low_pressure", axialPlayMm: [0.05, 0.16], radialPlayMaxMm: 0.2, drainBoreMm: 22 },
];

/** What another one costs the seller, EUR; the others cost what the settings say. */
const REPLACEMENT_COSTS: Readonly<Record<string, number>> = { VT36B: 690, VT40B: 760, VT50: 640, VT50H: 720, VT66L: 980 };

const VEHICLES: readonly VehiclePlan[] = [
  { key: "carrow20", make: "Halvorn", model: "Carrow", engine: "2.0 D HC20", fuel: "diesel", years: [2009, 2017], distanceKm: 165_000, ventIces: false },
  { key: "drover24", make: "Halvorn", model: "Drover", engine: "2.4 D HD24", fuel: "diesel", years: [2007, 2014], distanceKm: 195_000, ventIces: false },
  { key: "drover30", make: "Halvorn", model: "Drover", engine: "3.0 D HD30", fuel: "diesel", years: [2014, null], distanceKm: 120_000, ventIces: true },
  { key: "terrane28", make: "Velkona", model: "Terrane", engine: "2.8 D V28", fuel: "diesel", years: [2005, 2013], distanceKm: 210_000, ventIces: true },
  { key: "terrane32", make: "Velkona", model: "Terrane", engine: "3.2 D V32", fuel: "diesel", years: [2013, null], distanceKm: 130_000, ventIces: true },
  { key: "sill16", make: "Velkona", model: "Sill", engine: "1.6 P V16", fuel: "petrol", years: [2012, 2021], distanceKm: 85_000, ventIces: false },
  { key: "fellrider45", make: "Ardlow", model: "Fellrider", engine: "4.5 D A45", fuel: "diesel", years: [2001, 2012], distanceKm: 240_000, ventIces: true },
  { key: "tarn18", make: "Ardlow", model: "Tarn", engine: "1.8 P A18", fuel: "petrol", years: [2010, null], distanceKm: 95_000, ventIces: false },
  { key: "lorrel20", make: "Corvast", model: "Lorrel", engine: "2.0 P C20", fuel: "petrol", years: [2008, 2018], distanceKm: 110_000, ventIces: false },
  { key: "pello22", make: "Corvast", model: "Pello", engine: "2.2 D C22", fuel: "diesel", years: [2011, null], distanceKm: 150_000, ventIces: false },
  { key: "pello26", make: "Corvast", model: "Pello Van", engine: "2.6 D C26", fuel: "diesel", years: [2011, null], distanceKm: 180_000, ventIces: true },
  { key: "plough40", make: "Wendrick", model: "Ploughmate", engine: "4.0 D W40", fuel: "diesel", years: [1998, 2016], distanceKm: 60_000, ventIces: true },
  { key: "hauler67", make: "Torvane", model: "Haulmaster", engine: "6.7 D T67", fuel: "diesel", years: [2006, 2019], distanceKm: 260_000, ventIces: true },
  { key: "hauler72", make: "Torvane", model: "Haulmaster", engine: "7.2 D T72", fuel: "diesel", years: [2016, null], distanceKm: 190_000, ventIces: true },
];

const FIRST_ISSUE = "First issue.";

const KITS: readonly KitPlan[] = [
  {
    code: "KH-110", name: "Carrow bolt-on kit", turbo: "VT34", fits: ["carrow20"], sales: 11,
    drawing: { fallMm: 170, drainBoreMm: 14, ventToIntake: true, smallFilter: 0.004 },
    revisions: [{ revision: "A", monthsAgo: 46, change: FIRST_ISSUE }, { revision: "B", monthsAgo: 22, change: "Longer feed line." }],
  },
  {
    code: "KH-210", name: "Drover kit", turbo: "VT40", fits: ["drover24", "drover30", "carrow20"], sales: 16,
    drawing: { fallMm: 160, drainBoreMm: 17, ventToIntake: false, smallFilter: 0.003 },
    revisions: [
      { revision: "A", monthsAgo: 48, change: FIRST_ISSUE },
      { revision: "B", monthsAgo: 27, change: "Outlet gasket in steel." },
      { revision: "C", monthsAgo: 13, change: "Drain line formed in one piece, without the lower joint." },
    ],
  },
  {
    code: "KH-220", name: "Drover towing kit", turbo: "VT44", fits: ["drover30"], sales: 7,
    drawing: { fallMm: 150, drainBoreMm: 19, ventToIntake: false, smallFilter: 0.005 },
    revisions: [{ revision: "A", monthsAgo: 34, change: FIRST_ISSUE }, { revision: "B", monthsAgo: 15, change: "Heat shield added." }],
  },
  {
    code: "KH-310", name: "Terrane kit", turbo: "VT40", fits: ["terrane28", "terrane32"], sales: 13,
    drawing: { fallMm: 155, drainBoreMm: 17, ventToIntake: true, smallFilter: 0.004 },
    revisions: [{ revision: "A", monthsAgo: 44, change: FIRST_ISSUE }, { revision: "B", monthsAgo: 19, change: "Vent hose in larger bore." }],
  },
  {
    code: "KH-320", name: "Terrane towing kit", turbo: "VT44", fits: ["terrane28", "terrane32"], sales: 8,
    drawing: { fallMm: 150, drainBoreMm: 19, ventToIntake: false, smallFilter: 0.005 },
    revisions: [{ revision: "A", monthsAgo: 40, change: FIRST_ISSUE }],
  },
  {
    code: "KH-410", name: "Sill petrol kit", turbo: "VT36B", fits: ["sill16"], sales: 7,
    drawing: { fallMm: 140, drainBoreMm: 14, ventToIntake: true, smallFilter: 0.006 },
    revisions: [{ revision: "A", monthsAgo: 36, change: FIRST_ISSUE }, { revision: "B", monthsAgo: 9, change: "Restrictor pressed into the feed fitting." }],
  },
  {
    code: "KH-510", name: "Fellrider kit", turbo: "VT50", fits: ["fellrider45"], sales: 6,
    drawing: { fallMm: 190, drainBoreMm: 20, ventToIntake: false, smallFilter: 0.004 },
    revisions: [{ revision: "A", monthsAgo: 47, change: FIRST_ISSUE }, { revision: "B", monthsAgo: 24, change: "Leaflet redrawn." }],
  },
  {
    code: "KH-520", name: "Tarn petrol kit", turbo: "VT36B", fits: ["tarn18"], sales: 7,
    drawing: { fallMm: 145, drainBoreMm: 14, ventToIntake: true, smallFilter: 0.004 },
    revisions: [{ revision: "A", monthsAgo: 33, change: FIRST_ISSUE }],
  },
  {
    code: "KH-610", name: "Lorrel petrol kit", turbo: "VT40B", fits: ["lorrel20"], sales: 6,
    drawing: { fallMm: 150, drainBoreMm: 17, ventToIntake: true, smallFilter: 0.004 },
    revisions: [{ revision: "A", monthsAgo: 39, change: FIRST_ISSUE }], retiredMonthsAgo: 7,
  },
  {
    code: "KH-620", name: "Pello kit", turbo: "VT36", fits: ["pello22", "pello26"], sales: 11,
    drawing: { fallMm: 160, drainBoreMm: 14, ventToIntake: true, smallFilter: 0.003 },
    revisions: [{ revision: "A", monthsAgo: 42, change: FIRST_ISSUE }, { revision: "B", monthsAgo: 17, change: "Drain hose with a heat sleeve." }],
  },
  {
    code: "KH-710", name: "Ploughmate kit", turbo: "VT44", fits: ["plough40"], sales: 4,
    drawing: { fallMm: 210, drainBoreMm: 19, ventToIntake: false, smallFilter: 0.009 },
    revisions: [{ revision: "A", monthsAgo: 45, change: FIRST_ISSUE }],
  },
  {
    code: "KH-810", name: "Haulmaster compound kit, low-pressure stage", turbo: "VT66L", fits: ["hauler67", "hauler72"], sales: 4,
    drawing: { fallMm: 220, drainBoreMm: 24, ventToIntake: false, smallFilter: 0.005 },
    revisions: [{ revision: "A", monthsAgo: 38, change: FIRST_ISSUE }, { revision: "B", monthsAgo: 11, change: "Second drain support." }],
  },
  {
    code: "KH-820", name: "Haulmaster compound kit, high-pressure stage", turbo: "VT50H", fits: ["hauler67", "hauler72"], sales: 4,
    drawing: { fallMm: 180, drainBoreMm: 20, ventToIntake: false, smallFilter: 0.002 },
    revisions: [{ revision: "A", monthsAgo: 38, change: FIRST_ISSUE }],
  },
  {
    code: "KH-900", name: "Drain and vent set", turbo: null, fits: ["carrow20", "drover24", "drover30", "terrane28", "terrane32", "pello22", "pello26"], sales: 3,
    drawing: { fallMm: 150, drainBoreMm: 17, ventToIntake: true, smallFilter: 0 },
    revisions: [{ revision: "A", monthsAgo: 30, change: FIRST_ISSUE }],
  },
];

export interface TurboModel extends TurboModelPlan {
  id: string;
}
export interface Vehicle extends VehiclePlan {
  id: string;
}
export interface KitRevision {
  id: string;
  revision: string;
  introducedOn: Day;
}
export interface Kit {
  id: string;
  code: string;
  name: string;
  turbo: TurboModel | null;
  vehicles: readonly Vehicle[];
  sales: number;
  drawing: KitDrawing;
  revisions: readonly KitRevision[];
  retiredOn: Day | null;
}

export interface Catalogue {
  turboModels: readonly TurboModel[];
  vehicles: readonly Vehicle[];
  kits: readonly Kit[];
}

const DAYS_A_MONTH = 30.44;

/** The first day of something that happened so many months before the last day of the demo. */
export function monthsBefore(today: Day, months: number): Day {
  return Math.round(today - months * DAYS_A_MONTH);
}

export function makeCatalogue(random: Random, today: Day, tables: Tables): Catalogue {
  const turboModels = TURBO_MODELS.map((plan) => ({ ...plan, id: random.uuid() }));
  const vehicles = VEHICLES.map((plan) => ({ ...plan, id: random.uuid() }));
  const kits = KITS.map(
    (plan): Kit => ({
      id: random.uuid(),
      code: plan.code,
      name: plan.name,
      turbo: turboModels.find((model) => model.code === plan.turbo) ?? null,
      vehicles: vehicles.filter((vehicle) => plan.fits.includes(vehicle.key)),
      sales: plan.sales,
      drawing: plan.drawing,
      revisions: plan.revisions.map(({ revision, monthsAgo }) => ({ id: random.uuid(), revision, introducedOn: monthsBefore(today, monthsAgo) })),
      retiredOn: plan.retiredMonthsAgo === undefined ? null : monthsBefore(today, plan.retiredMonthsAgo),
    }),
  );

  for (const model of turboModels)
    tables.add("turbo_model", {
      id: model.id,
      code: model.code,
      name: model.name,
      bearing: model.bearing,
      staging: model.staging,
      axial_play_min_mm: model.axialPlayMm[0],
      axial_play_max_mm: model.axialPlayMm[1],
      radial_play_max_mm: model.radialPlayMaxMm,
      drain_bore_mm: model.drainBoreMm,
      replacement_cost: REPLACEMENT_COSTS[model.code] ?? null,
    });
  for (const vehicle of vehicles)
    tables.add("vehicle", {
      id: vehicle.id,
      make: vehicle.make,
      model: vehicle.model,
      engine: vehicle.engine,
      fuel: vehicle.fuel,
      year_from: vehicle.years[0],
      year_to: vehicle.years[1],
    });
  kits.forEach((kit, index) => {
    tables.add("kit", {
      id: kit.id,
      code: kit.code,
      name: kit.name,
      turbo_model_id: kit.turbo?.id ?? null,
      retired_on: kit.retiredOn === null ? null : isoDate(kit.retiredOn),
    });
    for (const revision of kit.revisions)
      tables.add("kit_revision", {
        id: revision.id,
        kit_id: kit.id,
        revision: revision.revision,
        introduced_on: isoDate(revision.introducedOn),
        change: KITS[index]?.revisions.find((plan) => plan.revision === revision.revision)?.change ?? "",
      });
    for (const vehicle of kit.vehicles) tables.add("fitment", { kit_id: kit.id, vehicle_id: vehicle.id });
  });
  return { turboModels, vehicles, kits };
}
