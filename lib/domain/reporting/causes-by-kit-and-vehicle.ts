import type { ReportCatalogue, ReportKit, ReportRevision, ReportVehicle } from "./catalogue";
import { type Comparison, compareWithTheRest, wentByMonth } from "./comparison";
import { type ClaimCount, FEWEST_CLAIMS, type Figures, figuresOf } from "./figures";
import { type ShipmentCount, shareOutUnknown } from "./share-out";

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

/** What to show: a kit's code, a vehicle's id or `unknown`; what is left out is not narrowed. */
export interface Shown {
  by: "kit" | "revision";
  kit?: string | undefined;
  vehicle?: string | undefined;
}

interface Place {
  kitRevisionId: string;
  vehicleId: string | null;
}

/**
 * Claims by kit and vehicle, with what was shipped, what came of it, and how each cell compares with the rest.
 *
 * @param shipments and claims of the whole period, all kits and vehicles: the rest is what a cell is compared with
 */
export function causesByKitAndVehicle(
  { catalogue, shipments, claims }: { catalogue: ReportCatalogue; shipments: readonly ShipmentCount[]; claims: readonly ClaimCount[] },
  shown: Shown,
): CausesTable {
  const lines = catalogue.kits.flatMap((kit): { kit: ReportKit; revision: ReportRevision | null; revisionIds: readonly string[] }[] =>
    shown.by === "kit"
      ? [{ kit, revision: null, revisionIds: kit.revisions.map(({ id }) => id) }]
      : kit.revisions.map((revision) => ({ kit, revision, revisionIds: [revision.id] })),
  );
  const exposures = shareOutUnknown(shipments);
  const lineOf = new Map(lines.flatMap(({ revisionIds }, line) => revisionIds.map((id) => [id, line] as const)));
  const cellOf = ({ kitRevisionId, vehicleId }: Place) => `${lineOf.get(kitRevisionId)} ${vehicleId}`;
  const exposuresByCell = groupBy(exposures, cellOf);
  const claimsByCell = groupBy(claims, cellOf);
  const isPlaced = ({ vehicleId }: Place) => vehicleId !== null;
  const everywhere = wentByMonth(exposures.filter(isPlaced), claims.filter(isPlaced));

  const rows = lines
    .map(({ kit, revision, revisionIds }, line) => {
      const cells = [...catalogue.vehicles, null].map((vehicle): Cell => {
        const exposuresHere = exposuresByCell.get(`${line} ${vehicle?.id ?? null}`) ?? [];
        const claimsHere = claimsByCell.get(`${line} ${vehicle?.id ?? null}`) ?? [];
        return {
          vehicle,
          isSold: vehicle !== null && kit.vehicleIds.includes(vehicle.id),
          figures: figuresOf(exposuresHere, claimsHere),
          comparison: vehicle && compareWithTheRest(wentByMonth(exposuresHere, claimsHere), everywhere),
        };
      });
      return { kit, revision, revisionIds, cells };
    })
    .filter(({ kit }) => shown.kit === undefined || kit.code === shown.kit);

  const rowsShown = rows.filter(({ cells }) => shown.kit !== undefined || cells.some(isBusy));
  const columns = [...catalogue.vehicles, null].filter((vehicle, column) =>
    shown.vehicle === undefined
      ? rowsShown.some(({ cells }) => cells[column] && (cells[column].isSold || isBusy(cells[column])))
      : (vehicle?.id ?? "unknown") === shown.vehicle,
  );
  const columnIds = new Set(columns.map((vehicle) => vehicle?.id ?? null));
  const totalOf = (revisionIds: readonly string[]) => {
    const isHere = ({ kitRevisionId, vehicleId }: Place) => revisionIds.includes(kitRevisionId) && columnIds.has(vehicleId);
    return figuresOf(exposures.filter(isHere), claims.filter(isHere));
  };
  return {
    columns,
    rows: rowsShown.map(({ kit, revision, revisionIds, cells }) => ({
      kit,
      revision,
      cells: cells.filter(({ vehicle }) => columnIds.has(vehicle?.id ?? null)),
      total: totalOf(revisionIds),
    })),
    total: totalOf(rowsShown.flatMap(({ revisionIds }) => revisionIds)),
    rowsLeftOut: rows.length - rowsShown.length,
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

function isBusy({ figures }: Cell): boolean {
  return figures.shipped > 0 || figures.claims > 0;
}

function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}
