import { usualPeriod } from "@/app/reports/read-address";
import { readFilter } from "@/lib/inputs/report-filter";
import { bookingsFileSchema } from "@/lib/inputs/settlement";
import { exportBookings } from "@/lib/operations/load-bookings";
import { answerWithFile, parametersOf } from "../answer-with-file";

export function GET(request: Request): Promise<Response> {
  return answerWithFile(request, "bookings", readFilter(bookingsFileSchema, parametersOf(request), usualPeriod()), exportBookings);
}
