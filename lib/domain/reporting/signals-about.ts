import type { ReportCatalogue } from "./catalogue";
import type { Selection } from "./causes-of-a-selection";
import type { SignalScope } from "./signals-scopes";

/**
 * Whether a signal tells of a selection: both name the same kit, revision, vehicle or batch, and nothing in which they differ.
 *
 * @example a signal of KH-210 rev C on the Drover tells of KH-210 on the Drover and of all kits on it, not of KH-210 rev A
 */
export function isAbout({ kitId, kitRevisionId, vehicleId, batch }: SignalScope, asked: Selection & { batch?: string | undefined }, { kits }: ReportCatalogue): boolean {
  const kit = kits.find(({ id, revisions }) => id === kitId || revisions.some((revision) => revision.id === kitRevisionId));
  const told = { kit: kit?.code, revision: kit?.revisions.find(({ id }) => id === kitRevisionId)?.revision, vehicle: vehicleId ?? undefined, batch: batch ?? undefined };
  const inBoth = (["kit", "revision", "vehicle", "batch"] as const).filter((field) => told[field] !== undefined && asked[field] !== undefined);
  return inBoth.length > 0 && inBoth.every((field) => told[field] === asked[field]);
}
