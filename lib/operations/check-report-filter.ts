import "server-only";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { Selection } from "@/lib/domain/reporting/causes-of-a-selection";

/** A filter that names what is not there, with the field that does. */
export interface UnknownInFilter {
  ok: false;
  reason: "unknown";
  field: "kit" | "revision" | "vehicle" | "cause";
}

/** The first field of a filter that names a kit, revision or vehicle we do not have. Part of the report operations. */
export function findUnknown(catalogue: ReportCatalogue, { kit, revision, vehicle }: Selection): UnknownInFilter | null {
  const unknown = (field: UnknownInFilter["field"]): UnknownInFilter => ({ ok: false, reason: "unknown", field });
  const kits = catalogue.kits.filter(({ code }) => kit === undefined || code === kit);
  if (kit !== undefined && kits.length === 0) return unknown("kit");
  if (revision !== undefined && !kits.some(({ revisions }) => revisions.some((known) => known.revision === revision))) return unknown("revision");
  if (vehicle !== undefined && vehicle !== "unknown" && !catalogue.vehicles.some(({ id }) => id === vehicle)) return unknown("vehicle");
  return null;
}
