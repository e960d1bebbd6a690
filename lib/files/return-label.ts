import "server-only";
import type { ReturnLabel } from "@/lib/domain/claims/return-label";
import { code128, qrCode, QUIET_BARS, QUIET_SQUARES, type Rectangle, rectanglesOfBars, rectanglesOfSquares } from "./barcodes";

/** What a label says beside the facts, in the sender's language. */
export interface LabelWords {
  from: string;
  to: string;
  number: string;
  contents: string;
}

export interface LabelText {
  text: string;
  /** Where the line of writing begins, and how high its letters stand, mm. */
  x: number;
  baseline: number;
  size: number;
  isBold: boolean;
}

/** A label as it is drawn on a page and in a file alike; millimetres from its upper left corner. */
export interface LabelDrawing {
  width: number;
  height: number;
  texts: readonly LabelText[];
  dark: readonly Rectangle[];
  /** From the left margin to the right one, at these heights. */
  rules: readonly number[];
}

/** Fits A6 (105 x 148 mm) and a label of 100 x 150 mm. */
export const LABEL_WIDTH = 100;
export const LABEL_HEIGHT = 148;
const MARGIN = 6;
/** A thermal printer of 203 dpi has 8 dots a millimetre; a module is a whole number of them, so that all come out alike. */
const DOT = 1 / 8;
const BAR_MODULE = 3 * DOT;
const BAR_HEIGHT = 20;
const NUMBER_SIZE = 4.4;
const WIDEST_QR = 42;
/** Of Barlow Semi Condensed: width of a letter as a share of its size, generously. */
const LETTER = 0.52;

/**
 * Lays out the label of a return: sender, the seller's address for returns, a QR code with the address of the return and
 * Code 128 of its number, each with the clear space it needs, and the number in figures.
 */
export function layOutLabel(label: ReturnLabel, words: LabelWords): LabelDrawing {
  const texts: LabelText[] = [];
  let baseline = MARGIN;
  const write = (text: string, size: number, isBold = false, x = MARGIN, width = LABEL_WIDTH - MARGIN - x) => {
    for (const line of wrapped(text, Math.floor(width / (size * LETTER)))) {
      baseline += size * 1.2;
      texts.push({ text: line, x, baseline, size, isBold });
    }
  };

  write(words.from, 2.8);
  for (const line of label.from) write(line, 3.6);
  const firstRule = baseline + 3;
  baseline = firstRule + 1;
  write(words.to, 2.8);
  label.to.forEach((line, index) => {
    write(line, 5.6, index === 0);
  });
  const secondRule = baseline + 3;

  const squares = qrCode(label.url);
  const side = Math.floor(WIDEST_QR / DOT / (squares.length + 2 * QUIET_SQUARES)) * DOT;
  const quiet = QUIET_SQUARES * side;
  const qrSize = squares.length * side + 2 * quiet;
  const beside = MARGIN + qrSize + 2;
  baseline = secondRule + quiet - 1;
  write(words.number, 2.8, false, beside);
  write(label.number, 5.2, true, beside);
  baseline += 2;
  write(words.contents, 3.2, false, beside);

  const bars = code128(label.number);
  const barsWidth = bars.reduce((sum, width) => sum + width, 0) * BAR_MODULE;
  const left = Math.max(QUIET_BARS * BAR_MODULE, snapped((LABEL_WIDTH - barsWidth) / 2));
  const top = snapped(LABEL_HEIGHT - MARGIN - NUMBER_SIZE * 1.2 - BAR_HEIGHT);
  texts.push({ text: label.number, x: left, baseline: LABEL_HEIGHT - MARGIN, size: NUMBER_SIZE, isBold: true });
  const scaled = (module: number, x: number, y: number, height: number) => (part: Rectangle) => ({ x: x + part.x * module, y: y + part.y * height, width: part.width * module, height: part.height * height });
  return {
    width: LABEL_WIDTH,
    height: LABEL_HEIGHT,
    texts,
    dark: [...rectanglesOfSquares(squares).map(scaled(side, snapped(MARGIN - 2 + quiet), snapped(secondRule + quiet), side)), ...rectanglesOfBars(bars, 1).map(scaled(BAR_MODULE, left, top, BAR_HEIGHT))],
    rules: [firstRule, secondRule, top - 4],
  };
}

const snapped = (mm: number) => Math.round(mm / DOT) * DOT;

/** A text in lines of so many letters; what has no space is cut. */
function wrapped(text: string, letters: number): readonly string[] {
  const lines: string[] = [""];
  for (const word of text.split(" ").flatMap((part) => part.match(new RegExp(`.{1,${letters}}`, "gu")) ?? [])) {
    const last = lines.at(-1) ?? "";
    if (last === "") lines[lines.length - 1] = word;
    else if (last.length + 1 + word.length <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
