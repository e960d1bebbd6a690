import type { CauseCode } from "../diagnosis/knowledge";
import type { Interval } from "../statistics/poisson-interval";
import { wilsonInterval } from "../statistics/wilson-interval";
import type { ReportCatalogue, ReportKit, ReportRevision } from "./catalogue";
import { addCosts, type Cohort, type Cost, type SharedCohort } from "./cohorts";
import { CONFIDENCE, type Figures, figuresOf, perThousand } from "./figures";
import type { Month } from "./month";
import type { ServiceClock } from "./months-in-service";
import { shareOutUnknown } from "./share-out";

/** How often a cause was named, or by the rankings of undecided claims would be, for one kit revision and vehicle. */
export interface CauseCount {
  kitRevisionId: string;
  vehicleId: string | null;
  /** Primary in the verdict, contributing to another, or probable where there is no verdict yet. */
  role: "primary" | "contributing" | "probable";
  cause: CauseCode;
  /** Whole, unless the role is probable. */
  claims: number;
}

/** What claims with this primary cause cost. */
export interface CauseCost extends Cost {
  cause: CauseCode | null;
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
  /** Of the decided claims; null where none is decided. */
  share: Interval | null;
  /** Share of the decided claims with this cause or one further up. */
  cumulativeShare: number | null;
  /** Per 1,000 shipped; null where nothing was shipped. */
  rate: Interval | null;
  /** Per 1,000 unit-months in service; null where there are none. */
  serviceRate: Interval | null;
  /** Verdicts in which it contributed to another. */
  contributing: number;
  /** Of claims not yet decided, by their rankings. Apart from all figures before. */
  probable: number;
  costs: readonly Cost[];
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
  /** Each month in which something was shipped or a claimed unit was, oldest first. */
  months: readonly { month: Month; figures: Pick<Figures, "shipped" | "sharedOut" | "unitMonths" | "claims" | "rate" | "serviceRate"> }[];
}

/** The causes behind one cell, row or column: how often each, how often it contributed, and in which revision and month. */
export function causesOfASelection({
  catalogue,
  cohorts,
  causes,
  costs,
  selection,
  clock,
}: {
  catalogue: ReportCatalogue;
  /** Of the kits selected, for all vehicles: the unknown are shared out to them. */
  cohorts: readonly Cohort[];
  causes: readonly CauseCount[];
  /** Of the selection. */
  costs: readonly CauseCost[];
  selection: Selection;
  clock: ServiceClock;
}): SelectionReport {
  const revisions = revisionsOf(catalogue, selection);
  const isSelected = selectorOf(catalogue, selection);
  const here = shareOutUnknown(cohorts, isSelected);
  const causesHere = causes.filter(isSelected);
  const figures = figuresOf(here, clock);
  return {
    figures,
    causes: causeLines(causesHere, costs, figures),
    revisions: revisions
      .map(({ kit, revision }) => ({
        kit,
        revision,
        figures: figuresOf(
          here.filter(({ kitRevisionId }) => kitRevisionId === revision.id),
          clock,
        ),
        leading: leadingCause(causesHere.filter(({ kitRevisionId }) => kitRevisionId === revision.id)),
      }))
      .filter(({ figures: { shipped, claims } }) => shipped > 0 || claims > 0),
    months: monthsOf(here, clock),
  };
}

function monthsOf(cohorts: readonly SharedCohort[], clock: ServiceClock): SelectionReport["months"] {
  const months = new Map<Month, { shipped: number; sharedOut: number; claims: number }>();
  for (const cohort of cohorts)
    for (const { month, known, sharedOut, claims } of cohort.months) {
      const went = months.get(month) ?? { shipped: 0, sharedOut: 0, claims: 0 };
      went.shipped += known + sharedOut;
      went.sharedOut += sharedOut;
      went.claims += claims;
      months.set(month, went);
    }
  return [...months]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([month, went]) => {
      const unitMonths = went.shipped * clock.monthsOf(month);
      return { month, figures: { ...went, unitMonths, rate: perThousand(went.claims, went.shipped), serviceRate: perThousand(went.claims, unitMonths) } };
    });
}

/** The kit revisions of a selection. */
export function revisionsOf(catalogue: ReportCatalogue, { kit: code, revision: name }: Selection): readonly { kit: ReportKit; revision: ReportRevision }[] {
  return catalogue.kits
    .filter((kit) => code === undefined || kit.code === code)
    .flatMap((kit) => kit.revisions.map((revision) => ({ kit, revision })))
    .filter(({ revision }) => name === undefined || revision.revision === name);
}

/** Whether something belongs to a selection. */
export function selectorOf(catalogue: ReportCatalogue, selection: Selection): (place: { kitRevisionId: string; vehicleId: string | null }) => boolean {
  const revisionIds = new Set(revisionsOf(catalogue, selection).map(({ revision }) => revision.id));
  return ({ kitRevisionId, vehicleId }) => revisionIds.has(kitRevisionId) && (selection.vehicle === undefined || (vehicleId ?? "unknown") === selection.vehicle);
}

/** The most frequent primary cause, the lower code where two are level; null where nothing is decided. */
export function leadingCause(causes: readonly CauseCount[]): { cause: CauseCode; claims: number } | null {
  const [leader] = [...countByCause(causes, "primary")].sort(([causeA, a], [causeB, b]) => b - a || causeA.localeCompare(causeB));
  return leader ? { cause: leader[0], claims: leader[1] } : null;
}

function causeLines(causes: readonly CauseCount[], costs: readonly CauseCost[], { decided, shipped, unitMonths }: Figures): readonly CauseLine[] {
  const primary = countByCause(causes, "primary");
  const contributing = countByCause(causes, "contributing");
  const probable = countByCause(causes, "probable");
  const codes = [...new Set(causes.map(({ cause }) => cause))].sort(
    (a, b) => (primary.get(b) ?? 0) - (primary.get(a) ?? 0) || (contributing.get(b) ?? 0) - (contributing.get(a) ?? 0) || (probable.get(b) ?? 0) - (probable.get(a) ?? 0) || a.localeCompare(b),
  );
  let sofar = 0;
  return codes.map((cause): CauseLine => {
    const count = primary.get(cause) ?? 0;
    sofar += count;
    return {
      cause,
      primary: count,
      share: decided > 0 ? wilsonInterval(count, decided, CONFIDENCE) : null,
      cumulativeShare: decided > 0 ? sofar / decided : null,
      rate: perThousand(count, shipped),
      serviceRate: perThousand(count, unitMonths),
      contributing: contributing.get(cause) ?? 0,
      probable: probable.get(cause) ?? 0,
      costs: addCosts(costs.filter((cost) => cost.cause === cause)),
    };
  });
}

function countByCause(counts: readonly CauseCount[], role: CauseCount["role"]): ReadonlyMap<CauseCode, number> {
  const byCause = new Map<CauseCode, number>();
  for (const { cause, claims, ...count } of counts) if (count.role === role) byCause.set(cause, (byCause.get(cause) ?? 0) + claims);
  return byCause;
}
