import type { CauseCode } from "../diagnosis/knowledge";
import type { Interval } from "../statistics/poisson-interval";
import { wilsonInterval } from "../statistics/wilson-interval";
import type { ReportCatalogue, ReportKit, ReportRevision } from "./catalogue";
import { type ClaimCount, CONFIDENCE, type Figures, figuresOf, perThousand } from "./figures";
import { type ShipmentCount, shareOutUnknown } from "./share-out";

/** Claims in which a cause stands in the verdict beside the primary one. */
export interface ContributingCount {
  kitRevisionId: string;
  vehicleId: string | null;
  cause: CauseCode;
  claims: number;
}

/** Part of what was shipped: a kit's code, its revision, a vehicle's id or `unknown`; what is left out is not narrowed. */
export interface Selection {
  kit?: string | undefined;
  revision?: string | undefined;
  vehicle?: string | undefined;
}

export interface CauseLine {
  cause: CauseCode;
  /** Verdicts that name it as the primary cause. */
  primary: number;
  /** Of the decided claims. */
  share: Interval;
  /** Per 1,000 shipped; null where nothing was shipped. */
  rate: Interval | null;
  /** Verdicts in which it contributed to another. */
  contributing: number;
}

export interface RevisionLine {
  kit: ReportKit;
  revision: ReportRevision;
  figures: Figures;
  /** The most frequent primary cause. */
  leading: { cause: CauseCode; claims: number } | null;
}

export interface SelectionReport {
  figures: Figures;
  /** Most frequent first, then by code. */
  causes: readonly CauseLine[];
  /** Revisions of which something was shipped, oldest first within each kit. */
  revisions: readonly RevisionLine[];
}

/** The causes behind one cell, row or column: how often each, how often it contributed, and in which revision. */
export function causesOfASelection({
  catalogue,
  shipments,
  claims,
  contributing,
  selection,
}: {
  catalogue: ReportCatalogue;
  shipments: readonly ShipmentCount[];
  claims: readonly ClaimCount[];
  contributing: readonly ContributingCount[];
  selection: Selection;
}): SelectionReport {
  const revisions = catalogue.kits
    .filter(({ code }) => selection.kit === undefined || code === selection.kit)
    .flatMap((kit) => kit.revisions.map((revision) => ({ kit, revision })))
    .filter(({ revision }) => selection.revision === undefined || revision.revision === selection.revision);
  const revisionIds = new Set(revisions.map(({ revision }) => revision.id));
  const isSelected = ({ kitRevisionId, vehicleId }: { kitRevisionId: string; vehicleId: string | null }) =>
    revisionIds.has(kitRevisionId) && (selection.vehicle === undefined || (vehicleId ?? "unknown") === selection.vehicle);

  const exposuresHere = shareOutUnknown(shipments).filter(isSelected);
  const claimsHere = claims.filter(isSelected);
  const figures = figuresOf(exposuresHere, claimsHere);
  const primary = countByCause(claimsHere);
  const beside = countByCause(contributing.filter(isSelected));
  const causes = [...new Set([...primary.keys(), ...beside.keys()])].map(
    (cause): CauseLine => ({
      cause,
      primary: primary.get(cause) ?? 0,
      // A cause stands here because a verdict names it, so at least one claim is decided.
      share: wilsonInterval(primary.get(cause) ?? 0, figures.decided, CONFIDENCE),
      rate: perThousand(primary.get(cause) ?? 0, figures.shipped),
      contributing: beside.get(cause) ?? 0,
    }),
  );
  return {
    figures,
    causes: causes.sort((a, b) => b.primary - a.primary || b.contributing - a.contributing || a.cause.localeCompare(b.cause)),
    revisions: revisions
      .map(({ kit, revision }) => {
        const ofRevision = claimsHere.filter(({ kitRevisionId }) => kitRevisionId === revision.id);
        return {
          kit,
          revision,
          figures: figuresOf(exposuresHere.filter(({ kitRevisionId }) => kitRevisionId === revision.id), ofRevision),
          leading: leadingCause(ofRevision),
        };
      })
      .filter(({ figures: { shipped, claims: count } }) => shipped > 0 || count > 0),
  };
}

/** The most frequent primary cause, the lower code where two are level; null where nothing is decided. */
export function leadingCause(claims: readonly ClaimCount[]): { cause: CauseCode; claims: number } | null {
  const [leader] = [...countByCause(claims)].sort(([causeA, a], [causeB, b]) => b - a || causeA.localeCompare(causeB));
  return leader ? { cause: leader[0], claims: leader[1] } : null;
}

function countByCause(counts: readonly { cause: CauseCode | null; claims: number }[]): ReadonlyMap<CauseCode, number> {
  const byCause = new Map<CauseCode, number>();
  for (const { cause, claims } of counts) if (cause !== null) byCause.set(cause, (byCause.get(cause) ?? 0) + claims);
  return byCause;
}
