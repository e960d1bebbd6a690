import { usualYears } from "@/app/reports/time/read-time-address";
import { readFilter } from "@/lib/inputs/report-filter";
import { toClaimFilterSchema } from "@/lib/inputs/time-filter";
import { exportTimeToClaim } from "@/lib/operations/export-time-reports";
import { answerWithFile, parametersOf } from "../../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "time-to-claim", readFilter(toClaimFilterSchema, parametersOf(request), usualYears()), exportTimeToClaim);
}
