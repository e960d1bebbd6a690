import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type DeskRow, listDeskRows } from "@/lib/data/desk-quality";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import { may } from "@/lib/domain/claims/permissions";
import { attributionOf } from "@/lib/domain/claims/proposed-verdict";
import { workingClock } from "@/lib/domain/claims/working-hours";
import type { Cause, CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { DESK_FIGURES, type DeskClaim, type DeskQuality, deskQuality, type Judgement } from "@/lib/domain/reporting/desk-quality";
import type { DeskClaimsFilter, DeskFilter } from "@/lib/inputs/desk-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";

/** A claim with its row, for the lists behind the figures. */
export interface DeskClaimRow extends DeskClaim {
  row: DeskRow;
  /** Working hours from filing, where it happened. */
  hoursToAnswer: number | null;
  hoursToVerdict: number | null;
}

export interface LoadedDeskQuality {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  quality: DeskQuality;
  claims: readonly DeskClaimRow[];
  currency: string;
  needlessReturn: number;
  promisedAnswerHours: number;
  secondOpinionShare: number;
  timeZone: string;
  /** Reasons of staff may name a customer: they are left out for a role that may not see one. */
  seesReasons: boolean;
}

/** How well the desk worked on the claims filed in a period. */
export async function loadDeskQuality(actor: StaffActor, filter: DeskFilter, now: Date = new Date()): Promise<LoadedDeskQuality | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const [catalogue, causes, settings] = await Promise.all([findReportCatalogue(), loadCausesEverInForce(), loadSettings()]);
  const unknown = findUnknown({ catalogue, causes, fitter: null }, filter);
  if (unknown) return unknown;
  const stakes = stakesOf(settings);
  const rows = await listDeskRows({ ...filter, timeZone: settings.timeZone, stakes, faults: FAULTS });
  const workingHours = workingClock(settings, rows.reduce((first, { filedAt }) => (filedAt < first ? filedAt : first), now), now);
  const seesReasons = may(actor.role, "see the customer");
  const claims = rows.map((row): DeskClaimRow => {
    const claim = deskClaim(seesReasons ? row : { ...row, reason: null }, causes);
    const hours = (until: Date | null) => until && workingHours(claim.filedAt, until);
    return { ...claim, hoursToAnswer: hours(claim.firstAnswerAt), hoursToVerdict: hours(claim.firstDecidedAt) };
  });
  return {
    ok: true,
    catalogue,
    causes,
    quality: deskQuality(claims, { now, workingHours, needlessReturn: stakes.needlessReturn }),
    claims,
    currency: settings.currency,
    needlessReturn: stakes.needlessReturn,
    promisedAnswerHours: settings.promisedAnswerHours,
    secondOpinionShare: settings.secondOpinionShare,
    timeZone: settings.timeZone,
    seesReasons,
  };
}

/** The claims that one figure counts, and one cell of its table where that is asked for. */
export function claimsOfFigure({ claims }: LoadedDeskQuality, { figure, first, second }: Pick<DeskClaimsFilter, "figure" | "first" | "second">, now: Date = new Date()): readonly DeskClaimRow[] {
  const counts = DESK_FIGURES[figure];
  const isOpinion = figure.startsWith("opinions");
  return claims.filter((claim) => {
    const pair = isOpinion ? claim.opinions : claim.verdict && claim.scored && { first: claim.verdict, second: claim.scored };
    return counts(claim, now) && (first === undefined || pair?.first.attribution === first) && (second === undefined || pair?.second.attribution === second);
  });
}

/** What the bench finds where the unit is not as it was made: seal ring, thrust bearing, journals, the rig, the housing. */
const FAULTS = ["F45", "F46", "F47", "F48", "F49"].map((finding) => ({ finding, answer: "present" }));

function deskClaim(row: DeskRow, causes: readonly Cause[]): DeskClaim & { row: DeskRow } {
  const verdict = judgement(row.cause, row.attribution);
  const first = judgement(row.firstCause, row.firstAttribution);
  const second = judgement(row.secondCause, row.secondAttribution);
  const leader = causes.find(({ code }) => code === row.leader);
  return {
    row,
    filedAt: row.filedAt,
    promisedAt: row.promisedAt,
    firstAnswerAt: row.firstAnswerAt,
    firstDecidedAt: row.firstDecidedAt,
    endedAt: row.endedAt,
    wasCleared: row.stage === "cleared",
    verdict: verdict && row.remedy && row.way ? { ...verdict, remedy: row.remedy, way: row.way } : null,
    // The scoring does not say whether fitter or kit: there it is held to what staff found.
    scored: leader ? { cause: leader.code, attribution: attributionOf(leader, row.origin) } : null,
    inspection: row.isInspected ? { showsFault: row.benchShowsFault } : null,
    returnAuthorised: row.returnAuthorised,
    wasSuspected: row.wasSuspected,
    opinions: first && second ? { first, second } : null,
  };
}

function judgement(cause: CauseCode | null, attribution: Judgement["attribution"] | null): Judgement | null {
  return cause !== null && attribution !== null ? { cause, attribution } : null;
}
