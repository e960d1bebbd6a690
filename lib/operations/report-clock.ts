import "server-only";
import { type ServiceClock, serviceClock } from "@/lib/domain/reporting/months-in-service";

/** Up to which day units are counted in service, and which part of their service: today where the seller is. Part of the report operations. */
export function reportClock(now: Date, timeZone: string, { serviceFrom = 0, serviceTo }: { serviceFrom?: number | undefined; serviceTo?: number | undefined } = {}): ServiceClock {
  const today = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" }).format(now);
  return serviceClock(today, { first: serviceFrom, before: serviceTo === undefined ? Number.POSITIVE_INFINITY : serviceTo + 1 });
}
