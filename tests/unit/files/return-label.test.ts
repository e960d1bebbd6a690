import { BinaryBitmap, Code128Reader, DecodeHintType, HybridBinarizer, QRCodeReader, type Reader, RGBLuminanceSource } from "@zxing/library";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import type { Rectangle } from "@/lib/files/barcodes";
import { returnLabelPdf } from "@/lib/files/pdf-return-label";
import { layOutLabel } from "@/lib/files/return-label";
import { filledRectangles, readPdf } from "@/tests/builders/pdf-text";

const LABEL = {
  number: "R-K7MP-4Q2-HXW",
  url: "https://claims.brackenhalt.example/returns/scan?of=R-K7MP-4Q2-HXW",
  to: ["Brackenhalt Turbo Supply", "Returns bench, Hall 3", "Slipway Lane 14", "40917 Brackenhalt"],
  from: ["Ada Brink", "Lange Stra\u00dfe 14", "40917 Brackenhalt"],
};
const WORDS = { from: "From", to: "To", number: "Return number", contents: "Turbocharger, used. Oil let out, openings plugged, in closed bags." };
/** Dots a millimetre of a usual thermal printer for labels. */
const DOTS = 203 / 25.4;

/** Dark rectangles as such a printer puts them on paper: each dot dark or not. */
async function printed(dark: readonly Rectangle[], dotsAUnit: number): Promise<BinaryBitmap> {
  const [width, height] = [Math.ceil(210 * DOTS), Math.ceil(300 * DOTS)];
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><rect width="100%" height="100%" fill="#fff"/><g transform="scale(${dotsAUnit})">${dark.map((one) => `<rect x="${one.x}" y="${one.y}" width="${one.width}" height="${one.height}" shape-rendering="crispEdges"/>`).join("")}</g></svg>`;
  const { data } = await sharp(Buffer.from(svg)).greyscale().threshold(128).raw().toBuffer({ resolveWithObject: true });
  return new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(new Uint8ClampedArray(data), width, height)));
}

const read = (reader: Reader, paper: BinaryBitmap) => reader.decode(paper, new Map([[DecodeHintType.TRY_HARDER, true]])).getText();

describe("the label of a return, printed at 203 dpi and scanned", () => {
  test("says its number in bars and its address in a square", async () => {
    const paper = await printed(layOutLabel(LABEL, WORDS).dark, DOTS);
    expect(read(new Code128Reader(), paper)).toBe(LABEL.number);
    expect(read(new QRCodeReader(), paper)).toBe(LABEL.url);
  });

  test.each(["a4", "a6", "roll"] as const)("says the same from the file on paper %s, with every line in words", async (paper) => {
    const pdf = await returnLabelPdf(LABEL, paper, { ...WORDS, title: "Label", cut: "Cut along the line." }, { language: "en", steps: ["Let the oil run out."], seller: "Brackenhalt Turbo Supply", now: new Date(0) });
    const dots = await printed(filledRectangles(pdf), 203 / 72);
    expect(read(new Code128Reader(), dots)).toBe(LABEL.number);
    expect(read(new QRCodeReader(), dots)).toBe(LABEL.url);
    const { text } = readPdf(pdf);
    for (const line of [...LABEL.to, ...LABEL.from, LABEL.number]) expect(text).toContain(line);
  });

  test("keeps everything on the label, however long names and addresses are", () => {
    const long = ["Sehr Lange Firma f\u00fcr Turbolader und Einbaus\u00e4tze mit einem Namen ohne Ende", "Unterdergartenhausstra\u00dfe 1234567890123456789012345678901234567890"];
    const { texts, dark, rules, height } = layOutLabel({ ...LABEL, to: [...long, "40917 Brackenhalt"], from: [...long, "40917 Brackenhalt"] }, WORDS);
    for (const { y, height: high } of dark) expect(y + high).toBeLessThanOrEqual(height);
    for (const { baseline } of texts) expect(baseline).toBeLessThanOrEqual(height);
    // The square stands between the second rule and the third, the bars below that.
    const [, second = 0, third = 0] = rules;
    const square = dark.filter(({ height: high }) => high < 2);
    expect(Math.min(...square.map(({ y }) => y))).toBeGreaterThan(second);
    expect(Math.max(...square.map((one) => one.y + one.height))).toBeLessThan(third);
  });
});
