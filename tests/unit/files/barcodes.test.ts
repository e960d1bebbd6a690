import { BarcodeFormat, BinaryBitmap, Code128Reader, DecodeHintType, HybridBinarizer, QRCodeReader, RGBLuminanceSource } from "@zxing/library";
import { expect, test } from "vitest";
import { code128, qrCode, QUIET_BARS, QUIET_SQUARES, type Rectangle, rectanglesOfBars, rectanglesOfSquares } from "@/lib/files/barcodes";

const NUMBER = "R-K7MP-4Q2-HXW";
const URL_OF_IT = `https://claims.example/returns/scan?of=${NUMBER}`;

/** What a camera sees of dark rectangles on white paper, some dots to each module. */
function seen(dark: readonly Rectangle[], quiet: number, dots: number): BinaryBitmap {
  const width = (Math.max(...dark.map((one) => one.x + one.width)) + 2 * quiet) * dots;
  const height = (Math.max(...dark.map((one) => one.y + one.height)) + 2 * quiet) * dots;
  const grey = new Uint8ClampedArray(width * height).fill(255);
  for (const one of dark) {
    for (let y = (one.y + quiet) * dots; y < (one.y + one.height + quiet) * dots; y++) grey.fill(0, y * width + (one.x + quiet) * dots, y * width + (one.x + one.width + quiet) * dots);
  }
  return new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(grey, width, height)));
}

test("the bars of a return are read as its number", () => {
  expect(new Code128Reader().decode(seen(rectanglesOfBars(code128(NUMBER), 40), QUIET_BARS, 3)).getText()).toBe(NUMBER);
});

test("the square of a return is read as the address of its page, also with its lower right corner smudged", () => {
  const dark = rectanglesOfSquares(qrCode(URL_OF_IT));
  const hints = new Map<DecodeHintType, unknown>([[DecodeHintType.POSSIBLE_FORMATS, [BarcodeFormat.QR_CODE]]]);
  expect(new QRCodeReader().decode(seen(dark, QUIET_SQUARES, 4), hints).getText()).toBe(URL_OF_IT);
  const side = qrCode(URL_OF_IT).length;
  const smudged = [...dark, { x: side - 5, y: side - 4, width: 5, height: 4 }];
  expect(new QRCodeReader().decode(seen(smudged, QUIET_SQUARES, 4), hints).getText()).toBe(URL_OF_IT);
});
