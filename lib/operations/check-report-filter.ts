import "server-only";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";

/** A filter that names what is not there, with the field that does. */
export interface UnknownInFilter {
  ok: false;
  reason: "unknown";
  field: "kit" | "revision" | "vehicle" | "cause" | "fitter";
}

/**
 * The first field of a filter that names what we do not have. Part of the report operations.
 *
 * @param known `fitter` is the one asked for, null where there is none of that id
 */
export function findUnknown(
  { catalogue, causes, fitter }: { catalogue: ReportCatalogue; causes: readonly Cause[]; fitter: unknown },
  filter: { kit?: string | undefined; revision?: string | undefined; vehicle?: string | undefined; cause?: string | undefined; fitter?: string | undefined },
): UnknownInFilter | null {
  const unknown = (field: UnknownInFilter["field"]): UnknownInFilter => ({ ok: false, reason: "unknown", field });
  const { kit, revision, vehicle, cause } = filter;
  const kits = catalogue.kits.filter(({ code }) => kit === undefined || code === kit);
  if (kit !== undefined && kits.length === 0) return unknown("kit");
  if (revision !== undefined && !kits.some(({ revisions }) => revisions.some((known) => known.revision === revision))) return unknown("revision");
  if (vehicle !== undefined && vehicle !== "unknown" && !catalogue.vehicles.some(({ id }) => id === vehicle)) return unknown("vehicle");
  if (cause !== undefined && !causes.some(({ code }) => code === cause)) return unknown("cause");
  if (filter.fitter !== undefined && fitter === null) return unknown("fitter");
  return null;
}
