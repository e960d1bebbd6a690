import "server-only";
import { playReadings } from "@/lib/domain/claims/play-readings";
import type { Cause, FindingCode, FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import { modelName, type ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { Selection, SelectionReport } from "@/lib/domain/reporting/causes-of-a-selection";
import { monthInWords, type Period, periodInWords } from "@/lib/domain/reporting/month";
import { OUTCOME_NAMES } from "@/lib/domain/reporting/outcomes";
import { rangeOf, type SupplierCase, tally } from "@/lib/domain/reporting/supplier-summary";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import { HIGHEST_PICTURE, PdfSheets } from "./pdf";

export interface SupplierSummary {
  filter: Period & Selection & { batch?: string | undefined; cause?: string | undefined };
  report: SelectionReport;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  findings: readonly FindingDefinition[];
  cases: readonly SupplierCase[];
  seller: string;
  /** To whom it goes; may be empty. */
  supplier: string;
  /** What is asked of the supplier, in the product manager's words. */
  ask: string;
  pictures: readonly { jpeg: Buffer; subject: string }[];
  paper: "A4" | "LETTER";
  /** Today where the seller is. */
  today: string;
  now: Date;
}

/** The evidence about a kit or a batch for whoever makes it. Cases have running numbers; nothing tells whose they are. */
export function supplierSummaryPdf({ filter, report, catalogue, causes, findings, cases, seller, supplier, ask, pictures, paper, today, now }: SupplierSummary): Promise<Buffer> {
  const subject = subjectOf(filter, catalogue);
  const { figures } = report;
  const sheets = new PdfSheets({ title: `${subject}: what was found`, author: seller, paper, foot: `${seller}, ${today}: ${subject}`, now });
  const causeName = (code: string) => causes.find((cause) => cause.code === code)?.name ?? code;
  const finding = (code: FindingCode) => findings.find((definition) => definition.code === code);
  const answerOf = (code: FindingCode, answer: string) => finding(code)?.options.find(({ value }) => value === answer)?.label ?? "measured";

  sheets.heading(`${subject}: what was found`, 1);
  sheets.paragraph(`From ${seller}${supplier ? ` to ${supplier}` : ""}, ${today}. What was shipped ${periodInWords(filter)}${filter.cause ? `; cause: ${causeName(filter.cause)}` : ""}.`);
  sheets.heading("What we ask of you");
  sheets.paragraph(ask);

  sheets.heading("What was seen");
  const exposure = filter.cause === undefined ? "decided claims" : "decided claims with this cause";
  sheets.paragraph(
    `${count(figures.decided)} ${exposure} about ${count(figures.shipped)} shipped${figures.sharedOut > 0 ? ` (${count(figures.sharedOut)} of them shared out, since the vehicle was not told)` : ""}, ${count(figures.unitMonths)} unit-months in service by estimate: ${rate(figures.rate)} per 1,000 shipped, ${rate(figures.serviceRate)} per 1,000 unit-months. Limits in brackets are those of exact 90 % intervals. Of what was shipped lately not every complaint has come in yet.`,
  );
  sheets.table(
    [{ name: "Primary cause", share: 0.5 }, { name: "Claims", share: 0.12, isNumber: true }, { name: "Per 1,000 shipped", share: 0.22, isNumber: true }, { name: "Share", share: 0.16, isNumber: true }],
    report.causes.filter(({ primary }) => primary > 0).map(({ cause, primary, rate: perShipped, share }) => [causeName(cause), count(primary), rate(perShipped), share ? `${percent(share.estimate)} (${whole.format(share.lower * 100)}\u2013${percent(share.upper)})` : ""]),
  );
  if (report.months.length > 0)
    sheets.table(
      [{ name: "Shipped in", share: 0.34 }, { name: "Shipped", share: 0.2, isNumber: true }, { name: "Claims", share: 0.16, isNumber: true }, { name: "Per 1,000 shipped", share: 0.3, isNumber: true }],
      report.months.map(({ month, figures: of }) => [monthInWords(month), count(of.shipped), count(of.claims), rate(of.rate)]),
    );

  const decisive = tally(cases.flatMap(({ decisive: found }) => found ?? []).map(({ finding: code, answer }) => ({ finding: code, answer: answerOf(code, answer) })));
  if (decisive.length > 0) {
    sheets.heading("What decided it");
    sheets.paragraph(`In each case the one finding that spoke most for the cause.${figures.decided > cases.length ? ` Of the newest ${count(cases.length)} cases.` : ""}`, { isSmall: true });
    sheets.table(
      [{ name: "Finding", share: 0.42 }, { name: "Seen", share: 0.4 }, { name: "Cases", share: 0.18, isNumber: true }],
      decisive.map(({ finding: code, answer, cases: times }) => [finding(code)?.name ?? code, answer, count(times)]),
    );
  }

  const benched = cases.filter(({ bench }) => bench.length > 0);
  sheets.heading(benched.length === 0 ? "No unit of these has been on our bench" : benched.length === 1 ? "1 unit was on our bench" : `${count(benched.length)} units were on our bench`);
  const seen = tally(benched.flatMap(({ bench }) => bench.flatMap(({ code, answer }) => (answer === null ? [] : [{ finding: code, answer: answerOf(code, answer) }]))));
  if (seen.length > 0)
    sheets.table(
      [{ name: "Looked at", share: 0.42 }, { name: "Found", share: 0.4 }, { name: "Units", share: 0.18, isNumber: true }],
      seen.map(({ finding: code, answer, cases: times }) => [finding(code)?.name ?? code, answer, count(times)]),
    );
  const measured = [...new Set(benched.flatMap(({ bench }) => bench.flatMap(({ code, measured: value }) => (value === null ? [] : [code]))))].sort();
  if (measured.length > 0)
    sheets.table(
      [{ name: "Measured", share: 0.34 }, { name: "Units", share: 0.1, isNumber: true }, { name: "Least, middle, most", share: 0.24 }, { name: "A sound unit shows", share: 0.2 }, { name: "Outside", share: 0.12, isNumber: true }],
      measured.map((code) => {
        const values = benched.flatMap(({ bench }) => bench.flatMap((found) => (found.code === code && found.measured !== null ? [found.measured] : [])));
        const readings = benched.flatMap(({ bench, limits }) => (limits ? playReadings(bench.filter((found) => found.code === code), limits) : []));
        const range = rangeOf(values);
        const definition = finding(code);
        return [
          definition?.name ?? code,
          count(values.length),
          range ? `${figure(range.least)}, ${figure(range.median)}, ${figure(range.most)} ${definition?.kind === "measurement" ? definition.unit : ""}`.trim() : "",
          [...new Set(readings.map(({ limit }) => limit))].join("; "),
          readings.length > 0 ? count(readings.filter(({ standing }) => standing !== "within").length) : "",
        ];
      }),
    );

  sheets.heading("The units");
  sheets.paragraph("Numbered for this summary alone. Serials and batches are those of the units as they were sold, so that you can look them up.", { isSmall: true });
  sheets.table(
    [{ name: "No.", share: 0.07, isNumber: true }, { name: "Serial", share: 0.2 }, { name: "Batch", share: 0.15 }, { name: "Shipped", share: 0.13 }, { name: "Months in service", share: 0.12, isNumber: true }, { name: "Cause", share: 0.33 }],
    cases.map(({ serial, batch, shippedOn, monthInService, cause, attribution }, index) => [
      String(index + 1),
      serial ?? "not known",
      batch ?? "not known",
      shippedOn?.toISOString().slice(0, 7) ?? "not known",
      monthInService === null ? "" : String(monthInService),
      `${causeName(cause)}; lies with ${OUTCOME_NAMES[attribution]}`,
    ]),
  );

  if (pictures.length > 0) {
    sheets.heading(pictures.length === 1 ? "A photo" : "Photos", 2, HIGHEST_PICTURE + 30);
    for (const [index, { jpeg, subject: shows }] of pictures.entries()) {
      const what = shows in OIL_PATH_PARTS ? OIL_PATH_PARTS[shows as OilPathPart].name : shows === "unit" ? "The unit" : "What was found";
      sheets.picture(jpeg, `${index + 1}. ${what}`);
    }
  }
  return sheets.finish();
}

/** What it is about: "KH-210 rev C on the Halvorn Drover 3.0 D HD30, batch T12-2603". */
export function subjectOf({ kit, revision, vehicle, batch }: SupplierSummary["filter"], { vehicles }: ReportCatalogue): string {
  const known = vehicles.find(({ id }) => id === vehicle);
  return [`${kit ?? "Units"}${revision ? ` rev ${revision}` : ""}${known ? ` on the ${modelName(known)}` : vehicle === "unknown" ? ", vehicle not known" : ""}`, batch && `batch ${batch}`].filter(Boolean).join(", ");
}

const whole = new Intl.NumberFormat("en-GB", { maximumFractionDigits: 0 });
const short = new Intl.NumberFormat("en-GB", { maximumSignificantDigits: 3 });
const count = (value: number) => whole.format(value);
const figure = (value: number) => short.format(value);
const percent = (share: number) => `${whole.format(share * 100)} %`;
const twoDecimals = new Intl.NumberFormat("en-GB", { maximumFractionDigits: 2 });
const rate = (interval: Interval | null) => (interval ? `${twoDecimals.format(interval.estimate)} (${twoDecimals.format(interval.lower)}\u2013${twoDecimals.format(interval.upper)})` : "no rate");
