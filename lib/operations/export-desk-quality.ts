import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import type { Agreement } from "@/lib/domain/statistics/cohen-kappa";
import type { Comparison, DeskQuality } from "@/lib/domain/reporting/desk-quality";
import type { WaitQuantiles } from "@/lib/domain/reporting/desk-waits";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import { type FileTable, fileTable, rounded } from "@/lib/files/table";
import type { DeskFileFilter } from "@/lib/inputs/desk-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { type DeskRow, type LoadedDeskQuality, loadDeskClaims, loadDeskQuality } from "./load-desk-quality";
import { type Refusal, refuse } from "./refusal";

/** One table of the quality of the desk, to go out as a file. */
export async function exportDeskQuality(actor: StaffActor, filter: DeskFileFilter): Promise<{ ok: true; table: FileTable } | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  if (filter.table === "figures" || filter.table === "pairs") {
    const loaded = await loadDeskQuality(actor, filter);
    return loaded.ok ? { ok: true, table: filter.table === "figures" ? figureTable(loaded) : pairTable(loaded.quality) } : loaded;
  }
  const loaded = await loadDeskClaims(actor, filter.table === "overrules" ? { ...filter, figure: "overruled", first: undefined, second: undefined } : filter, { skip: 0, take: MOST_ROWS });
  return loaded.ok ? { ok: true, table: claimTable(loaded.rows, loaded.timeZone) } : loaded;
}

/** As many as a sheet of a workbook holds, the newest. */
const MOST_ROWS = 1_000_000;

function figureTable({ quality, needlessReturn, currency }: LoadedDeskQuality): FileTable {
  const { counts, firstAnswer, verdict, inTime, noFaultFound, withScoring, betweenStaff, worthOfReturnsAvoided } = quality;
  return fileTable({ figure: "figure", unit: "unit", value: "value", lower: "lower 90 % limit", upper: "upper 90 % limit", of: "of claims" }, [
    ...waitLines("first answer", "working hours", firstAnswer.working, firstAnswer.claims),
    ...waitLines("first answer", "hours", firstAnswer.calendar, firstAnswer.claims),
    ...waitLines("verdict", "working hours", verdict.working, verdict.claims),
    ...waitLines("verdict", "hours", verdict.calendar, verdict.claims),
    shareLine("first answers in time", inTime, counts["on-time"] + counts.late),
    shareLine("no fault found", noFaultFound, counts.inspected),
    ...agreementLines("staff and scoring", withScoring),
    ...agreementLines("two of staff, blind", betweenStaff),
    line("returns avoided", "claims", counts["returns-avoided"], counts.suspected),
    line(`worth of returns avoided, at ${needlessReturn} each`, currency, worthOfReturnsAvoided, counts["returns-avoided"]),
    line("overruled", "claims", counts.overruled, counts.compared),
  ]);
}

/** Where two part: claims by what either laid them to, for both comparisons. */
function pairTable({ withScoring, betweenStaff }: DeskQuality): FileTable {
  const of = (compared: string, { cells }: Comparison) => cells.map(({ first, second, claims }) => ({ compared, first, second, claims }));
  return fileTable({ compared: "compared", first: "the verdict", second: "the other", claims: "claims" }, [...of("first cause of the ranking", withScoring), ...of("second opinion, blind", betweenStaff)]);
}

function line(figure: string, unit: string, value: number | null | undefined, of: number, limits: { lower?: number | null; upper?: number | null } = {}) {
  const show = (shown: number | null | undefined) => rounded(shown ?? undefined);
  return { figure, unit, value: show(value), lower: show(limits.lower), upper: show(limits.upper), of };
}

function waitLines(what: string, unit: string, { median, medianLower, medianUpper, ninetieth }: WaitQuantiles, of: number) {
  return [line(`median time to ${what}`, unit, median, of, { lower: medianLower, upper: medianUpper }), line(`90th percentile of the time to ${what}`, unit, ninetieth, of)];
}

function shareLine(figure: string, share: Interval | null, of: number) {
  return line(figure, "share", share?.estimate, of, share ?? {});
}

function agreementLines(who: string, { pairs, causes, attributions }: Comparison) {
  const lines = (about: string, agreement: Agreement | null) => [
    line(`agreement over ${about}, ${who}`, "share", agreement?.observedAgreement, pairs),
    line(`kappa over ${about}, ${who}`, "kappa", agreement?.kappa, pairs),
    line(`standard error of kappa over ${about}, ${who}`, "kappa", agreement?.standardError, pairs),
  ];
  return [...lines("attributions", attributions), ...lines("causes", causes)];
}

const CLAIM_COLUMNS = {
  reference: "reference",
  filed: "filed",
  stage: "stage",
  kit: "kit",
  vehicle: "vehicle",
  hoursToAnswer: "working hours to first answer",
  hoursToVerdict: "working hours to verdict",
  cause: "cause",
  attribution: "laid to",
  remedy: "remedy",
  way: "way",
  scored: "put first by the scoring",
  secondCause: "second opinion, cause",
  secondAttribution: "second opinion, laid to",
  decidedBy: "decided by",
  reason: "reason",
} as const;

function claimTable(rows: readonly DeskRow[], timeZone: string): FileTable {
  const day = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  return fileTable(
    CLAIM_COLUMNS,
    rows.map(({ filedAt, hoursToAnswer, hoursToVerdict, leader, ...row }) => ({
      reference: row.reference,
      filed: day.format(filedAt),
      stage: row.stage,
      kit: row.kit,
      vehicle: row.vehicle,
      hoursToAnswer: rounded(hoursToAnswer ?? undefined),
      hoursToVerdict: rounded(hoursToVerdict ?? undefined),
      cause: row.cause,
      attribution: row.attribution,
      remedy: row.remedy,
      way: row.way,
      scored: leader,
      secondCause: row.secondCause,
      secondAttribution: row.secondAttribution,
      decidedBy: row.decidedBy,
      reason: row.reason,
    })),
  );
}
