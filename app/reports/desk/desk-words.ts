import type { WaitQuantiles } from "@/lib/domain/reporting/desk-waits";
import type { DeskFigure } from "@/lib/domain/reporting/desk-quality";
import { figure } from "../figures-in-words";

/** What a figure counts, as the heading of its list of claims. */
export const FIGURE_WORDS: Readonly<Record<DeskFigure, string>> = {
  filed: "filed",
  answered: "with a first answer",
  unanswered: "without a first answer yet",
  "on-time": "answered in time",
  late: "answered late, or not yet though it is due",
  decided: "decided",
  undecided: "without a verdict yet",
  inspected: "decided after the bench inspected the unit",
  "no-fault-found": "whose returned unit had no fault",
  compared: "decided on a ranking",
  "same-cause": "whose verdict names the ranking\u2019s first cause",
  "same-attribution": "whose verdict and ranking lie with the same",
  overruled: "in which the ranking was overruled",
  opinions: "with a second opinion",
  "opinions-same-cause": "whose second opinion names the same cause",
  "opinions-same-attribution": "whose second opinion lays it to the same",
  suspected: "in which the unit was suspected at some time",
  "returns-avoided": "whose suspected unit did not have to come back",
};

/** Hours as they are read: up to two days in hours, then in days of 24 hours. */
export function hoursInWords(hours: number): string {
  return hours < 48 ? `${figure(hours)} h` : `${figure(hours / 24)} days`;
}

/** Working hours stay hours. */
export function workingHoursInWords(hours: number): string {
  return `${figure(hours)} h`;
}

/** A median with its interval: "3.2 h (2.9 to 3.6)". */
export function medianInWords({ median, medianLower, medianUpper }: WaitQuantiles, inWords: (hours: number) => string): string {
  if (median === null) return "fewer than half yet";
  return `${inWords(median)} (${medianLower === null ? "?" : inWords(medianLower)} to ${medianUpper === null ? "not known" : inWords(medianUpper)})`;
}

export function ninetiethInWords({ ninetieth }: WaitQuantiles, inWords: (hours: number) => string): string {
  return ninetieth === null ? "fewer than nine in ten yet" : inWords(ninetieth);
}
