import { usualPeriod } from "@/app/reports/read-address";
import { selectionFileSchema, readFilter } from "@/lib/inputs/report-filter";
import { exportCausesOfASelection } from "@/lib/operations/export-causes-of-a-selection";
import { answerWithFile, parametersOf } from "../../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "causes", readFilter(selectionFileSchema, parametersOf(request), usualPeriod()), exportCausesOfASelection);
}
