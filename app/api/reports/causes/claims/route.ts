import { usualPeriod } from "@/app/reports/read-address";
import { claimsBehindFilterSchema, readFilter } from "@/lib/inputs/report-filter";
import { exportClaimsBehind } from "@/lib/operations/export-claims-behind";
import { answerWithFile, parametersOf } from "../../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "claims", readFilter(claimsBehindFilterSchema, parametersOf(request), usualPeriod()), exportClaimsBehind);
}
