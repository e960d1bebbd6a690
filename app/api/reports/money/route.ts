import { usualPeriod } from "@/app/reports/read-address";
import { readFilter } from "@/lib/inputs/report-filter";
import { bookingsFilterSchema } from "@/lib/inputs/settlement";
import { exportBookings } from "@/lib/operations/load-bookings";
import { answerWithFile, parametersOf } from "../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "bookings", readFilter(bookingsFilterSchema, parametersOf(request), usualPeriod()), exportBookings);
}
