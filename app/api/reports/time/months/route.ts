import { usualYears } from "@/app/reports/time/read-time-address";
import { readFilter } from "@/lib/inputs/report-filter";
import { monthsFilterSchema } from "@/lib/inputs/time-filter";
import { exportMonthsReport } from "@/lib/operations/export-time-reports";
import { answerWithFile, parametersOf } from "../../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "claims-by-month", readFilter(monthsFilterSchema, parametersOf(request), usualYears()), exportMonthsReport);
}
