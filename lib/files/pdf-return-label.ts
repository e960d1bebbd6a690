import "server-only";
import type { LabelPaper, ReturnLabel } from "@/lib/domain/claims/return-label";
import { PdfSheets } from "./pdf";
import { LABEL_HEIGHT, LABEL_WIDTH, type LabelWords, layOutLabel } from "./return-label";

/** Of the papers that hold a label alone, mm. */
const ALONE: Readonly<Record<Exclude<LabelPaper, "a4">, readonly [width: number, height: number]>> = { a6: [105, 148], roll: [100, 150] };
const A4_WIDTH = 210;
const TOP = 12;

/** The label of a return as a file to print: alone on its paper, or on A4 with a line to cut along and how to pack the unit. */
export function returnLabelPdf(label: ReturnLabel, paper: LabelPaper, words: LabelWords & { title: string; cut: string }, sheet: { language: string; steps: readonly string[]; seller: string; now: Date }): Promise<Buffer> {
  const { language, steps, seller, now } = sheet;
  const drawing = layOutLabel(label, words);
  const pdf = new PdfSheets({ title: words.title, author: seller, paper: paper === "a4" ? "A4" : ALONE[paper], language, foot: "", now });
  if (paper !== "a4") {
    const [width, height] = ALONE[paper];
    pdf.drawing(drawing, (width - LABEL_WIDTH) / 2, (height - LABEL_HEIGHT) / 2);
    return pdf.finish();
  }
  const left = (A4_WIDTH - LABEL_WIDTH) / 2;
  pdf.cutLine(left - 2, TOP - 2, LABEL_WIDTH + 4, LABEL_HEIGHT + 4);
  pdf.drawing(drawing, left, TOP);
  pdf.paragraph(words.cut);
  steps.forEach((step, index) => {
    pdf.paragraph(`${index + 1}. ${step}`);
  });
  return pdf.finish();
}
