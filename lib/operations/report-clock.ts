import "server-only";
import type { ServiceClock } from "@/lib/domain/reporting/figures";

/** Up to which day units are counted in service, and which part of their service: today where the seller is. Part of the report operations. */
export function reportClock(now: Date, timeZone: string, { serviceFrom = 0, serviceTo }: { serviceFrom?: number | undefined; serviceTo?: number | undefined } = {}): ServiceClock {
  return {
    today: new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" }).format(now),
    service: { first: serviceFrom, before: serviceTo === undefined ? Number.POSITIVE_INFINITY : serviceTo + 1 },
  };
}
