import { type AllowedFitter, LOSS_GROUNDS_KNOWN, type PeriodStart, type TermsDocument, type WarrantyPeriod } from "@/lib/domain/warranty/terms";

export const START_WORDS: Readonly<Record<PeriodStart, string>> = { shipment: "shipment", fitting: "fitting" };

export const FITTER_WORDS: Readonly<Record<AllowedFitter, string>> = { anyone: "anyone", workshop: "a workshop of the trade", workshop_with_proof: "a workshop of the trade, with its invoice" };

const whole = (value: number) => value.toLocaleString("en-GB");

/** @example "24 months from shipment, or 60,000 km, whichever comes first" */
export function periodInWords({ from, months, distanceKm, hours }: WarrantyPeriod): string {
  const bounds = [...(distanceKm === null ? [] : [`${whole(distanceKm)} km`]), ...(hours === null ? [] : [`${whole(hours)} hours run`])];
  return `${months} months from ${START_WORDS[from]}${bounds.length > 0 ? `, or ${bounds.join(", or ")}, whichever comes first` : ""}`;
}

/** What a kit has otherwise, in words. */
export function kitTermsInWords({ months, distanceKm, hours, fitter }: TermsDocument["kits"][number]): string {
  const own = [months === null ? null : `${months} months`, distanceKm === null ? null : `${whole(distanceKm)} km`, hours === null ? null : `${whole(hours)} hours run`, fitter === null ? null : `fitted by ${FITTER_WORDS[fitter]}`];
  return own.filter(Boolean).join("; ") || "as the rest";
}

const countryNames = new Intl.DisplayNames("en", { type: "region" });

/** @example "Germany (DE)" */
export const countryInWords = (country: string) => `${countryNames.of(country) ?? ""} (${country})`;

export const lossInWords = (lostBy: TermsDocument["lostBy"]) => lostBy.map((ground) => LOSS_GROUNDS_KNOWN[ground].words);
