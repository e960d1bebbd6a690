import { usualPeriod } from "@/app/reports/read-address";
import { deskFileSchema } from "@/lib/inputs/desk-filter";
import { readFilter } from "@/lib/inputs/report-filter";
import { exportDeskQuality } from "@/lib/operations/export-desk-quality";
import { answerWithFile, parametersOf } from "../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "desk", readFilter(deskFileSchema, parametersOf(request), usualPeriod()), exportDeskQuality);
}
