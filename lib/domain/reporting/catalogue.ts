export interface ReportRevision {
  id: string;
  revision: string;
  /** `2026-01-31`. */
  introducedOn: string;
  change: string;
}

export interface ReportKit {
  id: string;
  code: string;
  name: string;
  revisions: readonly ReportRevision[];
  /** Vehicles it is sold for. */
  vehicleIds: readonly string[];
}

export interface ReportVehicle {
  id: string;
  make: string;
  model: string;
  engine: string;
}

/** What is sold, as far as a report needs to know. */
export interface ReportCatalogue {
  kits: readonly ReportKit[];
  vehicles: readonly ReportVehicle[];
}

/** A vehicle without its years. */
export function modelName({ make, model, engine }: Omit<ReportVehicle, "id">): string {
  return `${make} ${model} ${engine}`;
}
