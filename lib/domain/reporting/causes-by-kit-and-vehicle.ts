import type { ReportCatalogue, ReportKit, ReportRevision, ReportVehicle } from "./catalogue";
import type { Cohort, SharedCohort } from "./cohorts";
import { type Comparison, compareWithTheRest, wentByMonth } from "./comparison";
import { addFigures, FEWEST_CLAIMS, type Figures, figuresOf } from "./figures";
import type { ServiceClock } from "./months-in-service";
import { shareOutUnknown } from "./share-out";

/** One kit, or one revision of it, on one vehicle. */
export interface Cell {
  /** Null: the vehicle is not known. */
  vehicle: ReportVehicle | null;
  isSold: boolean;
  figures: Figures;
  /** Null where it says nothing. */
  comparison: Comparison | null;
}

export interface Row {
  kit: ReportKit;
  /** Null where a row is the whole kit. */
  revision: ReportRevision | null;
  /** One for each column, in the order of the columns. */
  cells: readonly Cell[];
  total: Figures;
}

export interface CausesTable {
  /** Null stands last, where claims or shipments have no vehicle. */
  columns: readonly (ReportVehicle | null)[];
  rows: readonly Row[];
  total: Figures;
  /** Kits, or revisions, of which nothing was shipped. */
  rowsLeftOut: number;
}

/** What to show: a kit's code, its revision, a vehicle's id or `unknown`; what is left out is not narrowed. */
export interface Shown {
  by: "kit" | "revision";
  kit?: string | undefined;
  revision?: string | undefined;
  vehicle?: string | undefined;
}

/**
 * Claims by kit and vehicle, with what was shipped, what came of it, and how each cell compares with the rest.
 *
 * @param cohorts of the whole period, all kits and vehicles: the rest is what a cell is compared with
 */
export function causesByKitAndVehicle({ catalogue, cohorts, clock }: { catalogue: ReportCatalogue; cohorts: readonly Cohort[]; clock: ServiceClock }, shown: Shown): CausesTable {
  const shared = shareOutUnknown(cohorts);
  const everywhere = wentByMonth(shared.filter(({ vehicleId }) => vehicleId !== null));
  const byRevision = groupBy(shared, ({ kitRevisionId }) => kitRevisionId);
  const lines = catalogue.kits
    .filter(({ code }) => shown.kit === undefined || code === shown.kit)
    .flatMap((kit): { kit: ReportKit; revision: ReportRevision | null; revisions: readonly ReportRevision[] }[] => {
      const revisions = kit.revisions.filter(({ revision }) => shown.revision === undefined || revision === shown.revision);
      return shown.by === "kit" ? [{ kit, revision: null, revisions }] : revisions.map((revision) => ({ kit, revision, revisions: [revision] }));
    })
    .map(({ revisions, ...line }) => ({
      ...line,
      soldFor: new Set(line.kit.vehicleIds),
      byVehicle: groupBy(
        revisions.flatMap(({ id }) => byRevision.get(id) ?? []),
        ({ vehicleId }) => vehicleId,
      ),
    }));

  const linesShown = lines.filter(({ byVehicle }) => shown.kit !== undefined || [...byVehicle.values()].some(isBusy));
  const vehicleIdsShown = new Set(linesShown.flatMap(({ kit, byVehicle }) => [...kit.vehicleIds, ...[...byVehicle].flatMap(([vehicleId, cohorts]) => (isBusy(cohorts) ? [vehicleId] : []))]));
  const columns = [...catalogue.vehicles, null].filter((vehicle) => (shown.vehicle === undefined ? vehicleIdsShown.has(vehicle?.id ?? null) : (vehicle?.id ?? "unknown") === shown.vehicle));
  const rows = linesShown.map(({ kit, revision, soldFor, byVehicle }): Row => {
    const cells = columns.map((vehicle): Cell => {
      const here = byVehicle.get(vehicle?.id ?? null) ?? [];
      return {
        vehicle,
        isSold: vehicle !== null && soldFor.has(vehicle.id),
        figures: figuresOf(here, clock),
        comparison: vehicle && here.length > 0 ? compareWithTheRest(wentByMonth(here), everywhere) : null,
      };
    });
    return { kit, revision, cells, total: addFigures(cells.map(({ figures }) => figures)) };
  });
  return { columns, rows, total: addFigures(rows.map(({ total }) => total)), rowsLeftOut: lines.length - rows.length };
}

export interface ComparedCell extends Cell {
  row: Row;
  comparison: Comparison;
}

/** The cells with enough claims to be compared; the one whose lower limit stands highest above the expected comes first. */
export function comparedCells(table: CausesTable): readonly ComparedCell[] {
  return table.rows
    .flatMap((row) =>
      row.cells.flatMap(({ comparison, ...cell }): ComparedCell[] =>
        comparison && cell.figures.claims >= FEWEST_CLAIMS ? [{ ...cell, comparison, row }] : [],
      ),
    )
    .sort((a, b) => b.comparison.ratio.lower - a.comparison.ratio.lower);
}

function isBusy(cohorts: readonly SharedCohort[]): boolean {
  return cohorts.some(({ months, probable }) => probable > 0 || months.some(({ known, sharedOut, claims }) => known > 0 || sharedOut > 0 || claims > 0));
}

function groupBy<K>(cohorts: readonly SharedCohort[], keyOf: (cohort: SharedCohort) => K): ReadonlyMap<K, readonly SharedCohort[]> {
  const groups = new Map<K, SharedCohort[]>();
  for (const cohort of cohorts) {
    const group = groups.get(keyOf(cohort));
    if (group) group.push(cohort);
    else groups.set(keyOf(cohort), [cohort]);
  }
  return groups;
}
