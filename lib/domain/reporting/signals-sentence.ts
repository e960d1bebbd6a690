import { modelName, type ReportCatalogue } from "./catalogue";
import { monthInWords } from "./month";
import type { Signal } from "./signals";
import type { SignalScope } from "./signals-scopes";

/**
 * A part of the sales by its plain name.
 *
 * @example "KH-210 rev C on Halvorn Drover 3.0 D HD30", "Batch VT44-2601"
 */
export function scopeInWords({ kitId, kitRevisionId, vehicleId, batch, shippedFrom }: SignalScope, { kits, vehicles }: ReportCatalogue): string {
  const kit = kits.find(({ id, revisions }) => id === kitId || revisions.some((revision) => revision.id === kitRevisionId));
  const revision = kit?.revisions.find(({ id }) => id === kitRevisionId);
  const vehicle = vehicles.find(({ id }) => id === vehicleId);
  return [
    ...(batch === null ? [] : [`Batch ${batch}`]),
    ...(kit ? [kit.code] : []),
    ...(revision ? [`rev ${revision.revision}`] : []),
    ...(vehicle ? [`on ${modelName(vehicle)}`] : []),
    ...(shippedFrom === null ? [] : [`shipped from ${monthInWords(shippedFrom)} on`]),
  ].join(" ");
}

/**
 * A signal as one plain sentence, with its exposure.
 *
 * @param causeName as the edition names it
 * @example "KH-210 rev C on Halvorn Drover 3.0 D HD30: drain runs level, rises or sags, 4.8 times the expected, 90 % interval 3.4 to 6.5, from 27 claims on 2,184 shipped since October 2025"
 */
export function signalInWords({ scope, ratio, claims, unitsShipped, since }: Signal, catalogue: ReportCatalogue, causeName: string): string {
  const where = scopeInWords({ ...scope, shippedFrom: null }, catalogue);
  const cause = causeName.charAt(0).toLowerCase() + causeName.slice(1);
  const shipped = Math.round(unitsShipped).toLocaleString("en-GB");
  return `${where}: ${cause}, ${times(ratio.ratio)} times the expected, 90 % interval ${times(ratio.lower)} to ${times(ratio.upper)}, from ${claims.toLocaleString("en-GB")} claims on ${shipped} shipped since ${monthInWords(since)}`;
}

/** Two digits are all that such a ratio is known to. */
function times(ratio: number): string {
  return ratio < 9.95 ? ratio.toFixed(1) : String(Math.round(ratio));
}
