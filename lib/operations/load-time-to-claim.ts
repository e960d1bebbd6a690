import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { countByService, countShipped, type ServiceCount } from "@/lib/data/report-times";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { sumBy, type UnitsShipped, unitsOfSelection } from "@/lib/domain/reporting/filed-claims";
import { type AgedClaims, type TimeToClaim, timeToClaim } from "@/lib/domain/reporting/time-to-claim";
import type { ToClaimFilter } from "@/lib/inputs/time-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";
import { findReportPlace } from "./report-place";

export interface TimeToClaimReport {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  whole: TimeToClaim;
  /** Kits by their codes or causes by theirs, most claims first. */
  parts: readonly { code: string; life: TimeToClaim }[];
  sharedOut: number;
  today: string;
}

/** Time from fitting to claim, of a selection and of each kit or cause in it. */
export async function loadTimeToClaim(actor: StaffActor, filter: ToClaimFilter, now: Date = new Date()): Promise<TimeToClaimReport | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const place = await findReportPlace(filter, now);
  if (!place.ok) return place;
  const { catalogue, causes, wanted, today } = place;
  const isNarrowed = wanted.cause !== undefined || wanted.outcome !== undefined || wanted.origin !== undefined;
  const [shipped, claims, all] = await Promise.all([
    countShipped(wanted),
    countByService(wanted, filter.each),
    isNarrowed ? countByService({ ...wanted, cause: undefined, outcome: undefined, origin: undefined }, filter.each) : null,
  ]);
  const selected = unitsOfSelection(shipped, wanted.vehicle);
  const lifeOf = (units: readonly UnitsShipped[], asked: readonly ServiceCount[], ofAll: readonly ServiceCount[]) =>
    timeToClaim({ units: sumBy(units, ({ month }) => month, (line) => line.units), claims: asked, others: without(ofAll, asked), today });
  const everyClaim = all ?? claims;
  const whole = lifeOf(selected, claims, everyClaim);
  const parts =
    filter.each === "cause"
      ? [...new Set(claims.flatMap(({ of }) => (of === null ? [] : [of])))].map((code) => ({ code, life: lifeOf(selected, claims.filter(({ of }) => of === code), everyClaim) }))
      : catalogue.kits.flatMap(({ code, revisions }) => {
          const ids = new Set(revisions.map(({ id }) => id));
          const units = selected.filter(({ kitRevisionId }) => ids.has(kitRevisionId));
          const ofKit = ({ of }: ServiceCount) => of === code;
          return units.length > 0 ? [{ code, life: lifeOf(units, claims.filter(ofKit), everyClaim.filter(ofKit)) }] : [];
        });
  return {
    ok: true,
    catalogue,
    causes,
    whole,
    parts: parts.toSorted((a, b) => b.life.claims - a.life.claims || a.code.localeCompare(b.code)),
    sharedOut: selected.reduce((sum, line) => sum + line.sharedOut, 0),
    today,
  };
}

/** The claims of all that were not asked for. */
function without(all: readonly ServiceCount[], asked: readonly ServiceCount[]): readonly AgedClaims[] {
  const left = sumBy([...all, ...asked.map((line) => ({ ...line, claims: -line.claims }))], ({ month, monthInService }) => `${month} ${monthInService}`, (line) => line.claims);
  return [...left].filter(([, claims]) => claims > 0).map(([key, claims]) => ({ month: key.slice(0, 7), monthInService: Number(key.slice(8)), claims }));
}
