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
/** Of the letters of addresses, the largest that fits. */
const SMALLEST = 0.3;
const SCALES = [1, 0.85, 0.7, 0.55, 0.4, SMALLEST];
const WIDEST_QR = 42;
/** Of Barlow Semi Condensed: width of a letter as a share of its size, generously. */
const LETTER = 0.52;

/** Writes lines one below the other, from a height on. */
class Writing {
  readonly texts: LabelText[] = [];
  constructor(public baseline: number) {}

  write(text: string, size: number, { isBold = false, x = MARGIN }: { isBold?: boolean; x?: number } = {}): void {
    for (const line of wrapped(text, Math.floor((LABEL_WIDTH - MARGIN - x) / (size * LETTER)))) {
      this.baseline += size * 1.2;
      this.texts.push({ text: line, x, baseline: this.baseline, size, isBold });
    }
  }
}

/** Sender and seller, with the rules below each. */
function addresses(label: ReturnLabel, words: LabelWords, scale: number): { texts: readonly LabelText[]; rules: readonly [number, number] } {
  const writing = new Writing(MARGIN);
  writing.write(words.from, 2.8 * scale);
  for (const line of label.from) writing.write(line, 3.6 * scale);
  const first = writing.baseline + 3;
  writing.baseline = first + 1;
  writing.write(words.to, 2.8 * scale);
  label.to.forEach((line, index) => {
    writing.write(line, 5.6 * scale, { isBold: index === 0 });
  });
  return { texts: writing.texts, rules: [first, writing.baseline + 3] };
}

/**
 * Lays out the label of a return: sender, the seller's address for returns, a QR code with the address of the return and
 * Code 128 of its number, each with the clear space it needs, and the number in figures. Long addresses are written
 * smaller, so that the codes keep their size.
 */
export function layOutLabel(label: ReturnLabel, words: LabelWords): LabelDrawing {
  const squares = qrCode(label.url);
  const side = Math.floor(WIDEST_QR / DOT / (squares.length + 2 * QUIET_SQUARES)) * DOT;
  const quiet = QUIET_SQUARES * side;
  const qrSize = squares.length * side + 2 * quiet;
  const top = snapped(LABEL_HEIGHT - MARGIN - NUMBER_SIZE * 1.2 - BAR_HEIGHT);
  const thirdRule = top - 4;
  const fits = (scale: number) => addresses(label, words, scale).rules[1] + qrSize <= thirdRule;
  const { texts, rules } = addresses(label, words, SCALES.find(fits) ?? SMALLEST);

  const beside = { x: MARGIN + qrSize + 2 };
  const facts = new Writing(rules[1] + quiet - 1);
  facts.write(words.number, 2.8, beside);
  facts.write(label.number, 5.2, { ...beside, isBold: true });
  facts.baseline += 2;
  facts.write(words.contents, 3.2, beside);

  const bars = code128(label.number);
  const barsWidth = bars.reduce((sum, width) => sum + width, 0) * BAR_MODULE;
  const left = Math.max(QUIET_BARS * BAR_MODULE, snapped((LABEL_WIDTH - barsWidth) / 2));
  const scaled = (module: number, x: number, y: number, height: number) => (part: Rectangle) => ({ x: x + part.x * module, y: y + part.y * height, width: part.width * module, height: part.height * height });
  return {
    width: LABEL_WIDTH,
    height: LABEL_HEIGHT,
    texts: [...texts, ...facts.texts, { text: label.number, x: left, baseline: LABEL_HEIGHT - MARGIN, size: NUMBER_SIZE, isBold: true }],
    dark: [...rectanglesOfSquares(squares).map(scaled(side, snapped(MARGIN - 2 + quiet), snapped(rules[1] + quiet), side)), ...rectanglesOfBars(bars, 1).map(scaled(BAR_MODULE, left, top, BAR_HEIGHT))],
    rules: [...rules, thirdRule],
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
