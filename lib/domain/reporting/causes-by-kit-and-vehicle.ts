import type { ReportCatalogue, ReportKit, ReportRevision, ReportVehicle } from "./catalogue";
import type { Cohort, SharedCohort } from "./cohorts";
import { type Comparison, compareWithTheRest, wentByMonth } from "./comparison";
import { FEWEST_CLAIMS, type Figures, figuresOf } from "./figures";
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
  const byRevisionAndVehicle = new Map(shared.map((cohort) => [`${cohort.kitRevisionId} ${cohort.vehicleId}`, cohort]));
  const vehicles = [...catalogue.vehicles, null];
  const lines = catalogue.kits
    .filter(({ code }) => shown.kit === undefined || code === shown.kit)
    .flatMap((kit): { kit: ReportKit; revision: ReportRevision | null; revisions: readonly ReportRevision[] }[] => {
      const revisions = kit.revisions.filter(({ revision }) => shown.revision === undefined || revision === shown.revision);
      return shown.by === "kit" ? [{ kit, revision: null, revisions }] : revisions.map((revision) => ({ kit, revision, revisions: [revision] }));
    })
    .map(({ revisions, ...line }) => ({
      ...line,
      inColumns: vehicles.map((vehicle) => revisions.flatMap(({ id }) => byRevisionAndVehicle.get(`${id} ${vehicle?.id ?? null}`) ?? [])),
    }));

  const linesShown = lines.filter(({ inColumns }) => shown.kit !== undefined || inColumns.some(isBusy));
  const columnsShown = vehicles.flatMap((vehicle, column) => {
    const isShown =
      shown.vehicle === undefined
        ? linesShown.some(({ kit, inColumns }) => (vehicle !== null && kit.vehicleIds.includes(vehicle.id)) || isBusy(inColumns[column] ?? []))
        : (vehicle?.id ?? "unknown") === shown.vehicle;
    return isShown ? [{ vehicle, column }] : [];
  });
  const shownOf = (inColumns: readonly (readonly SharedCohort[])[]) => columnsShown.flatMap(({ column }) => inColumns[column] ?? []);
  return {
    columns: columnsShown.map(({ vehicle }) => vehicle),
    rows: linesShown.map(({ kit, revision, inColumns }) => ({
      kit,
      revision,
      cells: columnsShown.map(({ vehicle, column }): Cell => {
        const here = inColumns[column] ?? [];
        return {
          vehicle,
          isSold: vehicle !== null && kit.vehicleIds.includes(vehicle.id),
          figures: figuresOf(here, clock),
          comparison: vehicle && here.length > 0 ? compareWithTheRest(wentByMonth(here), everywhere) : null,
        };
      }),
      total: figuresOf(shownOf(inColumns), clock),
    })),
    total: figuresOf(linesShown.flatMap(({ inColumns }) => shownOf(inColumns)), clock),
    rowsLeftOut: lines.length - linesShown.length,
  };
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
