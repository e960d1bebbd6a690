import "server-only";
import sharp from "sharp";

/** Wide enough for half a page in print. */
const WIDEST_PX = 900;

/** A kept photo encoded anew for a document that leaves the house: nothing but the picture comes with it. */
export function pictureForPrint(bytes: Uint8Array): Promise<Buffer> {
  return sharp(bytes).rotate().resize({ width: WIDEST_PX, height: WIDEST_PX, fit: "inside", withoutEnlargement: true }).jpeg({ quality: 80 }).toBuffer();
}
