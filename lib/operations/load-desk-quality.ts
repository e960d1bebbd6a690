import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { countDeskFacts, countDeskWaits, type DeskClaimsWanted, type DeskRow, type KeptGroup, listDeskRows } from "@/lib/data/desk-quality";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { findReportCatalogue } from "@/lib/data/reports";
import { loadSettings, type SellerSettings } from "@/lib/data/settings";
import { may } from "@/lib/domain/claims/permissions";
import { attributionOf } from "@/lib/domain/claims/proposed-verdict";
import { workingClock } from "@/lib/domain/claims/working-hours";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { revisionsOf } from "@/lib/domain/reporting/causes-of-a-selection";
import { claimsOf, DESK_FIGURES, type DeskFacts, type DeskQuality, deskQuality, isInCell } from "@/lib/domain/reporting/desk-quality";
import { keptMinutes, type Wait, type Waits } from "@/lib/domain/reporting/desk-waits";
import type { DeskClaimsFilter, DeskFilter } from "@/lib/inputs/desk-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";

export type { DeskRow } from "@/lib/data/desk-quality";

/** What the pages about the desk stand on. */
interface Surroundings {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  timeZone: string;
  /** Reasons of staff may name a customer: they are left out for a role that may not see one. */
  seesReasons: boolean;
}

export interface LoadedDeskQuality extends Surroundings {
  quality: DeskQuality;
  /** The newest of the overruled rankings. */
  overrules: readonly DeskRow[];
  currency: string;
  needlessReturn: number;
  promisedAnswerHours: number;
  secondOpinionShare: number;
}

export interface LoadedDeskClaims extends Surroundings {
  total: number;
  rows: readonly DeskRow[];
}

/** So many overrules stand on the page; the list behind them has all. */
const OVERRULES_SHOWN = 25;

/** How well the desk worked on the claims filed in a period. */
export async function loadDeskQuality(actor: StaffActor, filter: DeskFilter, now: Date = new Date()): Promise<LoadedDeskQuality | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const place = await findPlace(actor, filter, now);
  if (!place.ok) return place;
  const { around, settings, wanted } = place;
  const [kept, { firstAnswer, verdict, open }] = await Promise.all([countDeskFacts(wanted), countDeskWaits(wanted)]);
  const groups = kept.map((group) => ({ ...group, facts: factsOf(group, around.causes) }));
  const openSince = (since: readonly { filedAt: Date }[]) => openWaits(since.map(({ filedAt }) => filedAt), settings, now);
  const overruled = groups.filter(({ facts }) => DESK_FIGURES.overruled(facts));
  return {
    ...around,
    quality: deskQuality(groups, {
      firstAnswer: joined(firstAnswer, openSince(open.filter(({ awaitsAnswer }) => awaitsAnswer))),
      verdict: joined(verdict, openSince(open.filter(({ awaitsVerdict }) => awaitsVerdict))),
      needlessReturn: wanted.stakes.needlessReturn,
    }),
    overrules: await listRows(around, wanted, overruled, { skip: 0, take: OVERRULES_SHOWN }),
    currency: settings.currency,
    needlessReturn: wanted.stakes.needlessReturn,
    promisedAnswerHours: settings.promisedAnswerHours,
    secondOpinionShare: settings.secondOpinionShare,
  };
}

/** The claims that one figure counts, newest first, and those of one cell of its table where that is asked for. */
export async function loadDeskClaims(
  actor: StaffActor,
  { figure, first, second, ...filter }: DeskFilter & Pick<DeskClaimsFilter, "figure" | "first" | "second">,
  slice: { skip: number; take: number },
  now: Date = new Date(),
): Promise<LoadedDeskClaims | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const place = await findPlace(actor, filter, now);
  if (!place.ok) return place;
  const { around, wanted } = place;
  const counted = (await countDeskFacts(wanted)).filter((group) => {
    const facts = factsOf(group, around.causes);
    return DESK_FIGURES[figure](facts) && isInCell(facts, figure, { first, second });
  });
  return { ...around, total: claimsOf(counted), rows: await listRows(around, wanted, counted, slice) };
}

async function findPlace(actor: StaffActor, { from, to, kit, vehicle }: DeskFilter, now: Date): Promise<{ ok: true; around: Surroundings; settings: SellerSettings; wanted: DeskClaimsWanted } | UnknownInFilter> {
  const [catalogue, causes, settings] = await Promise.all([findReportCatalogue(), loadCausesEverInForce(), loadSettings()]);
  const unknown = findUnknown({ catalogue, causes, fitter: null }, { kit, vehicle });
  if (unknown) return unknown;
  const kitRevisionIds = kit === undefined ? undefined : revisionsOf(catalogue, { kit }).map(({ revision }) => revision.id);
  const { timeZone } = settings;
  return { ok: true, around: { ok: true, catalogue, causes, timeZone, seesReasons: may(actor.role, "see the customer") }, settings, wanted: { from, to, kitRevisionIds, vehicle, timeZone, stakes: stakesOf(settings), now } };
}

async function listRows({ seesReasons }: Surroundings, wanted: DeskClaimsWanted, groups: readonly KeptGroupKey[], slice: { skip: number; take: number }): Promise<DeskRow[]> {
  if (groups.length === 0) return [];
  const rows = await listDeskRows(wanted, groups, slice);
  return seesReasons ? rows : rows.map((row) => ({ ...row, reason: null }));
}

type KeptGroupKey = Pick<KeptGroup, "factsId" | "wasSuspected" | "isOverdueNow">;

function factsOf({ facts: { leader: leaderCode, origin, ...facts }, wasSuspected, isOverdueNow }: KeptGroup, causes: readonly Cause[]): DeskFacts {
  const leader = causes.find(({ code }) => code === leaderCode);
  return {
    ...facts,
    isOverdue: facts.isOverdue || isOverdueNow,
    // The scoring does not say whether fitter or kit: there it is held to what staff found.
    scored: leader ? { cause: leader.code, attribution: attributionOf(leader, origin) } : null,
    wasSuspected,
  };
}

/** Of those that still wait. */
function openWaits(since: readonly Date[], settings: SellerSettings, now: Date): Waits {
  const workingHours = workingClock(settings, since.reduce((first, at) => (at < first ? at : first), now), now);
  const waits = (hours: (from: Date) => number) => since.map((from): Wait => ({ minutes: keptMinutes(hours(from)), isOver: false, claims: 1 }));
  return { working: waits((from) => workingHours(from, now)), calendar: waits((from) => (now.getTime() - from.getTime()) / 3_600_000) };
}

function joined(some: Waits, others: Waits): Waits {
  return { working: [...some.working, ...others.working], calendar: [...some.calendar, ...others.calendar] };
}
