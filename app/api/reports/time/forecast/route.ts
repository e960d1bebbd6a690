import { usualYears } from "@/app/reports/time/read-time-address";
import { readFilter } from "@/lib/inputs/report-filter";
import { forecastFilterSchema } from "@/lib/inputs/time-filter";
import { exportForecast } from "@/lib/operations/export-time-reports";
import { answerWithFile, parametersOf } from "../../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "claims-to-come", readFilter(forecastFilterSchema, parametersOf(request), usualYears()), exportForecast);
}
