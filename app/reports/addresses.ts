/** The filters of the report pages as they stand in an address; an empty one is left out. */
export type Parameters = Readonly<Record<string, string | number | null | undefined>>;

/** An address with its parameters; those that are empty are left out. */
export function address(path: string, parameters: Parameters): string {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(parameters)) if (value !== undefined && value !== null && value !== "") query.set(name, String(value));
  return query.size > 0 ? `${path}?${query}` : path;
}

/** What a report narrows by beside kit, vehicle and cause: it goes along from page to page. */
export function carried({ from, to, batch, outcome, origin, fitter, serviceFrom, serviceTo, with: probable }: Parameters): Parameters {
  return { from, to, batch, outcome, origin, fitter, serviceFrom, serviceTo, with: probable };
}

/** Causes by kit and vehicle. */
export const causesAddress = (parameters: Parameters) => address("/reports/causes", parameters);
/** The causes behind one cell, row or column. */
export const cellAddress = (parameters: Parameters) => address("/reports/causes/cell", parameters);
/** The claims behind a figure. */
export const claimsAddress = (parameters: Parameters) => address("/reports/causes/claims", parameters);
/** Claims by month. */
export const monthsAddress = (parameters: Parameters) => address("/reports/time/months", parameters);
/** Time from fitting to claim. */
export const toClaimAddress = (parameters: Parameters) => address("/reports/time/to-claim", parameters);
/** Claims still to come. */
export const forecastAddress = (parameters: Parameters) => address("/reports/time/forecast", parameters);
/** The same report as a file for a spreadsheet. */
export const fileAddress = (report: "causes" | "causes/cell" | "causes/claims" | "time/months" | "time/to-claim" | "time/forecast", parameters: Parameters) => address(`/api/reports/${report}`, parameters);
/** The list of signals, of one state or all. */
export const signalsAddress = (parameters: Parameters) => address("/reports/signals", parameters);
/** One signal with its history. */
export const signalAddress = (signalId: string) => `/reports/signals/${signalId}`;
/** The list of signals as a file. */
export const signalsFileAddress = (parameters: Parameters) => address("/api/reports/signals", parameters);
