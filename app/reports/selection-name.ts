import { modelName, type ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { Selection } from "@/lib/domain/reporting/causes-of-a-selection";

/** A selection by name: "KH-210 rev C on the Halvorn Drover 3.0 D HD30", or of a batch alone "Batch VT44-2601". */
export function selectionName({ vehicles }: ReportCatalogue, { kit, revision, vehicle, batch }: Selection & { batch?: string | undefined }): string {
  const known = vehicles.find(({ id }) => id === vehicle);
  const what = `${kit ?? (batch === undefined ? "All kits" : `Batch ${batch}`)}${revision === undefined ? "" : ` rev ${revision}`}`;
  if (vehicle === "unknown") return `${what}, vehicle not known`;
  return known ? `${what} on the ${modelName(known)}` : what;
}
