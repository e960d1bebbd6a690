import "server-only";
// The raw() that gives modules is in the default export alone; the named one draws a code called so.
import bwipjs from "bwip-js/node";

/** Widths in modules, bars and spaces in turn, the first a bar. */
export type Bars = readonly number[];
/** The rows of a square, each from left to right; true is dark. */
export type Squares = readonly (readonly boolean[])[];

/** Clear space beside the bars and around the square, in modules: as the standards ask for (ISO/IEC 15417, ISO/IEC 18004, from memory). */
export const QUIET_BARS = 10;
export const QUIET_SQUARES = 4;

/** Code 128 of a number (ISO/IEC 15417), by bwip-js. */
export function code128(text: string): Bars {
  const [symbol] = bwipjs.raw("code128", text, "");
  if (!symbol || !("sbs" in symbol)) throw new Error("code128 needs text that Code 128 can hold");
  return symbol.sbs;
}

/** A QR code (ISO/IEC 18004) that is still read with a quarter of it smudged (level Q), by bwip-js. */
export function qrCode(text: string): Squares {
  const [symbol] = bwipjs.raw("qrcode", text, "eclevel=Q");
  if (!symbol || !("pixs" in symbol)) throw new Error("qrCode needs text that a QR code can hold");
  const { pixs, pixx, pixy } = symbol;
  return Array.from({ length: pixy }, (_, row) => Array.from({ length: pixx }, (_, column) => pixs[row * pixx + column] === 1));
}

export interface Rectangle {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The dark parts of a row of bars, a module wide each unit, from x = 0 on. */
export function rectanglesOfBars(bars: Bars, height: number): readonly Rectangle[] {
  let x = 0;
  return bars.flatMap((width, index) => {
    const start = x;
    x += width;
    return index % 2 === 0 ? [{ x: start, y: 0, width, height }] : [];
  });
}

/** The dark parts of a square, runs within a row joined, so that no hairline shows between modules in print. */
export function rectanglesOfSquares(squares: Squares): readonly Rectangle[] {
  return squares.flatMap((row, y) => {
    const runs: Rectangle[] = [];
    row.forEach((isDark, x) => {
      const last = runs.at(-1);
      if (!isDark) return;
      if (last && last.x + last.width === x) last.width += 1;
      else runs.push({ x, y, width: 1, height: 1 });
    });
    return runs;
  });
}

/** Rectangles as the data of one SVG path. */
export function svgPath(rectangles: readonly Rectangle[]): string {
  return rectangles.map(({ x, y, width, height }) => `M${x} ${y}h${width}v${height}h${-width}z`).join("");
}
