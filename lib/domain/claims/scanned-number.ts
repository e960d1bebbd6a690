import { parseReference } from "./reference";

/** What a scanner or a person put in: a return or a parcel by its number, or a place by its code. */
export type Scanned = { is: "return"; number: string } | { is: "parcel"; number: string } | { is: "place"; code: string };

/** Before the code of a place in its barcode, so that it is told from a serial. */
export const PLACE_SIGN = "PLACE-";

/** The address of the page that opens a return or a parcel: what its QR code holds. */
export function scanPath(number: string): string {
  return `/returns/scan?of=${number}`;
}

/**
 * Reads what came in through the one field: the address in a QR code, the text of a barcode, or a number as somebody
 * typed it. Case, spaces and hyphens do not matter, and every number has a check character, so that a slip of the hand
 * opens no other unit. A number without its first letter is a return's. Scanners set to another keyboard type other signs
 * for hyphens and colons, so anything but letters and figures is passed over.
 *
 * @example readScanned("https://claims.example/returns/scan?of=R-K7MP-4Q2-HXW") // the return R-K7MP-4Q2-HXW
 * @example readScanned("place-shelf-2") // the place SHELF-2
 */
export function readScanned(typed: string): Scanned | null {
  const text = (/[?&]of=([^&#\s]+)/i.exec(typed)?.[1] ?? typed).trim().toUpperCase();
  const place = /^PLACE[^A-Z0-9]+([A-Z0-9]+(?:[^A-Z0-9]+[A-Z0-9]+)*)$/.exec(text)?.[1];
  if (place) return { is: "place", code: place.replace(/[^A-Z0-9]+/g, "-") };
  const signs = text.replace(/[^A-Z0-9]/g, "");
  const bare = parseReference(signs);
  if (bare) return { is: "return", number: `R-${bare}` };
  const reference = parseReference(signs.slice(1));
  if (!reference) return null;
  if (signs.startsWith("R")) return { is: "return", number: `R-${reference}` };
  return signs.startsWith("P") ? { is: "parcel", number: `P-${reference}` } : null;
}
