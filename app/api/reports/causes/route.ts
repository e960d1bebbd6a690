import { usualPeriod } from "@/app/reports/read-address";
import { causesFilterSchema, readFilter } from "@/lib/inputs/report-filter";
import { exportCausesReport } from "@/lib/operations/export-causes-report";
import { answerWithFile, parametersOf } from "../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "causes", readFilter(causesFilterSchema, parametersOf(request), usualPeriod()), exportCausesReport);
}
