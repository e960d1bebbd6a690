import { BORE_WAYS, type BoreWay } from "./bore-from-outside";

/** Beside a number: how it was come by, where not by reading it off. */
export const wayField = (name: string) => `${name}-way`;

/** Notes of findings that were come by in such a way, for staff. */
export const WAY_NOTES: Readonly<Record<BoreWay, string>> = {
  "outside-usual-wall": "reckoned from the outside of the hose, with the usual wall",
  "outside-known-wall": "reckoned from the outside of the hose and its wall",
};

/**
 * The way in which the number in a field was come by, or null where it was read off: the help writes the number behind
 * the way, so that a way holds for no other number typed later. Without script only the way is ticked.
 *
 * Example: F13 "13,2" with F13-way "outside-usual-wall 13,2" was reckoned from the outside; typed over with "12" it was not.
 */
export function wayOf(name: string, values: Readonly<Record<string, string | undefined>>): BoreWay | null {
  const [said, number] = (values[wayField(name)] ?? "").split(" ");
  const way = BORE_WAYS.find((known) => known === said);
  return way && (number === undefined || number === values[name]) ? way : null;
}
