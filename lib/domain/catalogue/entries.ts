/** What carries the shaft of a unit. */
export const BEARINGS = ["journal", "ball"] as const;
export type Bearing = (typeof BEARINGS)[number];
export const BEARING_NAMES: Readonly<Record<Bearing, string>> = { journal: "journal bearing", ball: "ball bearing" };

/** Whether a unit works alone or is one of a compound pair. */
export const STAGINGS = ["single", "low_pressure", "high_pressure"] as const;
export type Staging = (typeof STAGINGS)[number];
export const STAGING_NAMES: Readonly<Record<Staging, string>> = { single: "works alone", low_pressure: "low-pressure one of a pair", high_pressure: "high-pressure one of a pair" };

export const FUELS = ["diesel", "petrol"] as const;
export type Fuel = (typeof FUELS)[number];

/** Who makes turbo models or the parts of kits: to whom a defect is charged back. */
export interface SupplierEntry {
  code: string;
  name: string;
  /** Where a chargeback goes. */
  email: string;
  /** On an envelope, in one line; may be empty. */
  address: string;
  /** Days in which an answer is due, as agreed. */
  answerWithinDays: number;
  /** Last bought from, or null. What they made is charged back to them all the same. */
  retiredOn: Date | null;
}

/** A time to answer in that can be agreed. @example isAnswerTime(30) // true */
export const isAnswerTime = (days: number): boolean => Number.isInteger(days) && days >= 1 && days <= 365;

/** A turbo model, with the limits that play at the bench is read against. */
export interface TurboModelEntry {
  code: string;
  name: string;
  bearing: Bearing;
  staging: Staging;
  axialPlayMinMm: number;
  axialPlayMaxMm: number;
  radialPlayMaxMm: number;
  drainBoreMm: number;
  /** What another one costs the seller; null where the settings' figure holds. */
  replacementCost: number | null;
  /** Who makes it; null while nobody has said. */
  supplierId: string | null;
}

export interface VehicleEntry {
  make: string;
  model: string;
  engine: string;
  fuel: Fuel;
  yearFrom: number;
  /** Null while it is still built. */
  yearTo: number | null;
}

export interface KitEntry {
  code: string;
  name: string;
  /** Null for an installation kit without a unit. */
  turboModelId: string | null;
  /** Who makes its parts beside the unit; null while nobody has said. */
  supplierId: string | null;
  /** Last day of sale, or null. */
  retiredOn: Date | null;
  /** Ids of the vehicles it is sold for. */
  fits: readonly string[];
}

export interface KitRevisionEntry {
  kitId: string;
  revision: string;
  introducedOn: Date;
  /** What is different from the one before. */
  change: string;
}

export interface FitterEntry {
  name: string;
  place: string;
}

/** What each page of the catalogue keeps. */
export interface CatalogueEntries {
  kits: KitEntry;
  revisions: KitRevisionEntry;
  vehicles: VehicleEntry;
  "turbo-models": TurboModelEntry;
  fitters: FitterEntry;
  suppliers: SupplierEntry;
}
export type EntryKind = keyof CatalogueEntries;
