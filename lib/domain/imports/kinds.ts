/** What a file of figures may hold, in the order in which they build on each other. */
export const IMPORT_KINDS = ["suppliers", "turbo_models", "kits", "vehicles", "fitments", "shipments"] as const;
export type ImportKind = (typeof IMPORT_KINDS)[number];

export const IMPORT_KIND_NAMES: Readonly<Record<ImportKind, string>> = {
  suppliers: "Suppliers",
  turbo_models: "Turbo models",
  kits: "Kits and their revisions",
  vehicles: "Vehicles",
  fitments: "Which kit fits which vehicle",
  shipments: "Shipments",
};

/** How far a file has come; the last four are ends. */
export const IMPORT_STATES = ["uploaded", "queued", "running", "done", "refused", "failed", "withdrawn"] as const;
export type ImportState = (typeof IMPORT_STATES)[number];

/** Why a whole file could not be taken in, whatever its rows say. */
export const IMPORT_REASONS = ["no-rows", "quotes-broken", "row-too-long", "encoding-broken", "file-gone", "interrupted", "trouble"] as const;
export type ImportReason = (typeof IMPORT_REASONS)[number];

/** What becomes of a row that is there already with other values. */
export const CHANGED_ROWS = ["refuse", "update"] as const;
export type ChangedRows = (typeof CHANGED_ROWS)[number];
