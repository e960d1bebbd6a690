import "server-only";
import path from "node:path";
import PDFDocument from "pdfkit";

const FONTS = path.join(process.cwd(), "node_modules/@fontsource/barlow-semi-condensed/files/barlow-semi-condensed");
/** Each weight in the files that its characters are spread over, the first that has one wins. */
const SUBSETS = ["latin", "latin-ext", "vietnamese"] as const;
const WEIGHTS = { plain: 500, bold: 600 } as const;
type Weight = keyof typeof WEIGHTS;

/** What people write that no file of the font has. */
const WRITTEN_AS: Readonly<Record<string, string>> = { "\u2265": ">=", "\u2264": "<=", "\u2192": "->", "\u2190": "<-", "\u03a9": "Ohm", "\u03bc": "\u00b5", "\u2011": "-", "\u2212": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " " };

export interface PdfColumn {
  name: string;
  /** Share of the width of the page. */
  share: number;
  isNumber?: boolean;
}

/** Something drawn to measure, millimetres from its upper left corner. */
export interface PdfDrawing {
  width: number;
  height: number;
  texts: readonly { text: string; x: number; baseline: number; size: number; isBold: boolean }[];
  dark: readonly { x: number; y: number; width: number; height: number }[];
  /** Lines across its whole width, at these heights. */
  rules: readonly number[];
}

const POINTS_A_MM = 72 / 25.4;
const MARGIN = 48;
/** No picture is higher, points. */
export const HIGHEST_PICTURE = 280;
const INK = "#111111";
const SOFT = "#444444";

/**
 * A document on sheets of paper: headings, paragraphs, ruled tables that repeat their head on the next page, pictures,
 * drawings, a foot with the page's number unless it is empty. It is tagged, so that a screen reader finds headings and tables, and its font comes along.
 */
export class PdfSheets {
  readonly #doc: PDFKit.PDFDocument;
  readonly #done: Promise<Buffer>;
  readonly #foot: string;
  readonly #covers: readonly { name: (typeof SUBSETS)[number]; has: (codePoint: number) => boolean }[];

  constructor({ title, author, paper, language = "en-GB", foot, now }: { title: string; author: string; language?: string; paper: "A4" | "LETTER" | readonly [widthMm: number, heightMm: number]; foot: string; now: Date }) {
    const info = { Title: title, Author: author, Creator: "Fit or Fault", Producer: "Fit or Fault", CreationDate: now };
    // The standard font is never read: its files are not where a built application looks for them.
    this.#doc = new PDFDocument({ size: typeof paper === "string" ? paper : [paper[0] * POINTS_A_MM, paper[1] * POINTS_A_MM], margins: { top: MARGIN, bottom: MARGIN + 18, left: MARGIN, right: MARGIN }, bufferPages: true, tagged: true, pdfVersion: "1.7", lang: language, displayTitle: true, font: `${FONTS}-latin-500-normal.woff`, info });
    const parts: Buffer[] = [];
    this.#done = new Promise((resolve, reject) => {
      this.#doc.on("data", (part: Buffer) => parts.push(part)).on("end", () => resolve(Buffer.concat(parts))).on("error", reject);
    });
    this.#foot = foot;
    for (const subset of SUBSETS) for (const weight of Object.keys(WEIGHTS) as Weight[]) this.#doc.registerFont(`${weight}-${subset}`, `${FONTS}-${subset}-${WEIGHTS[weight]}-normal.woff`);
    this.#covers = SUBSETS.map((name) => {
      // pdfkit keeps the opened font there; its types do not tell.
      const opened = this.#doc.font(`plain-${name}`) as unknown as { _font: { font: { hasGlyphForCodePoint(codePoint: number): boolean } } };
      const { font } = opened._font;
      return { name, has: (codePoint: number) => font.hasGlyphForCodePoint(codePoint) };
    });
  }

  /** @param keepWith height of what may not stand on another page than the heading */
  heading(words: string, level: 1 | 2 = 2, keepWith = 52): void {
    const size = level === 1 ? 20 : 13;
    this.#need(size * 2 + keepWith);
    if (level === 2) this.#doc.moveDown(0.8);
    this.#tagged(level === 1 ? "H1" : "H2", () => this.#write(words, { size, weight: "bold" }));
    this.#doc.moveDown(0.3);
  }

  paragraph(words: string, { isSmall = false }: { isSmall?: boolean } = {}): void {
    this.#tagged("P", () => this.#write(words, { size: isSmall ? 8.5 : 10.5, color: isSmall ? SOFT : INK }));
    this.#doc.moveDown(0.4);
  }

  table(columns: readonly PdfColumn[], rows: readonly (readonly string[])[]): void {
    const doc = this.#doc;
    const table = doc.struct("Table");
    doc.addStructure(table);
    const names = columns.map(({ name }) => name);
    const heightOf = (cells: readonly string[], isHead: boolean) => {
      doc.font(`${isHead ? "bold" : "plain"}-latin`).fontSize(9);
      return Math.max(...cells.map((cell, index) => doc.heightOfString(this.#writable(cell) || " ", { width: this.#columnWidth(columns[index]) - 8 })));
    };
    const line = (cells: readonly string[], isHead: boolean) => {
      const weight: Weight = isHead ? "bold" : "plain";
      const height = heightOf(cells, isHead);
      if (this.#need(height + 8) && !isHead) line(names, true);
      const top = doc.y;
      const row = doc.struct("TR");
      table.add(row);
      let left = MARGIN;
      cells.forEach((cell, index) => {
        const width = this.#columnWidth(columns[index]);
        const x = left;
        row.add(doc.struct(isHead ? "TH" : "TD", {}, () => this.#write(cell, { size: 9, weight, at: { x: x + 4, y: top + 3, width: width - 8 }, align: columns[index]?.isNumber ? "right" : "left" })));
        left += width;
      });
      row.end();
      doc.y = top + height + 6;
      doc.x = MARGIN;
      doc.markContent("Artifact");
      doc.moveTo(MARGIN, doc.y).lineTo(MARGIN + this.#width, doc.y).lineWidth(isHead ? 1 : 0.4).strokeColor(INK).stroke();
      doc.endMarkedContent();
    };
    // A head goes with its first row.
    this.#need(heightOf(names, true) + 8 + (rows[0] ? heightOf(rows[0], false) + 8 : 0));
    line(names, true);
    for (const row of rows) line(row, false);
    table.end();
    doc.moveDown(0.6);
  }

  picture(jpeg: Buffer, caption: string): void {
    this.#need(HIGHEST_PICTURE + 30);
    this.#doc.addStructure(this.#doc.struct("Figure", { alt: this.#writable(caption) }, () => this.#doc.image(jpeg, { fit: [this.#width * 0.6, HIGHEST_PICTURE] })));
    this.#doc.moveDown(0.3);
    this.paragraph(caption, { isSmall: true });
  }

  /** A drawing at its place on the page, millimetres from the upper left corner; what is written next stands below it. */
  drawing({ width, height, texts, dark, rules }: PdfDrawing, left: number, top: number): void {
    const doc = this.#doc;
    const x = (mm: number) => (left + mm) * POINTS_A_MM;
    const y = (mm: number) => (top + mm) * POINTS_A_MM;
    const alt = texts.map(({ text }) => this.#writable(text)).join(", ");
    this.#doc.addStructure(
      doc.struct("Figure", { alt }, () => {
        doc.fillColor(INK).lineWidth(0.7).strokeColor(INK);
        for (const part of dark) doc.rect(x(part.x), y(part.y), part.width * POINTS_A_MM, part.height * POINTS_A_MM);
        doc.fill();
        for (const rule of rules) doc.moveTo(x(0), y(rule)).lineTo(x(width), y(rule));
        doc.stroke();
        for (const { text, x: from, baseline, size, isBold } of texts) {
          let at = x(from);
          doc.fontSize(size * POINTS_A_MM);
          for (const run of this.#runsOf(this.#writable(text))) {
            doc.font(`${isBold ? "bold" : "plain"}-${run.subset}`).text(run.text, at, y(baseline), { lineBreak: false, baseline: "alphabetic" });
            at += doc.widthOfString(run.text);
          }
        }
      }),
    );
    doc.x = MARGIN;
    doc.y = y(height) + 12;
  }

  /** A line to cut along, around what was drawn there. */
  cutLine(left: number, top: number, width: number, height: number): void {
    this.#doc.markContent("Artifact");
    this.#doc.rect(left * POINTS_A_MM, top * POINTS_A_MM, width * POINTS_A_MM, height * POINTS_A_MM).dash(3, { space: 3 }).lineWidth(0.5).strokeColor(SOFT).stroke().undash();
    this.#doc.endMarkedContent();
  }

  finish(): Promise<Buffer> {
    const { start, count } = this.#doc.bufferedPageRange();
    for (let page = start; this.#foot !== "" && page < start + count; page += 1) {
      this.#doc.switchToPage(page);
      const { height } = this.#doc.page;
      // Written below the margin, where text would begin another page.
      this.#doc.page.margins.bottom = 0;
      this.#doc.markContent("Artifact", { type: "Pagination" });
      this.#write(`${this.#foot}    ${page - start + 1} / ${count}`, { size: 8, color: SOFT, at: { x: MARGIN, y: height - MARGIN, width: this.#width } });
      this.#doc.endMarkedContent();
    }
    this.#doc.end();
    return this.#done;
  }

  get #width(): number {
    return this.#doc.page.width - 2 * MARGIN;
  }

  #columnWidth(column: PdfColumn | undefined): number {
    return this.#width * (column?.share ?? 0);
  }

  /** Begins another page where less than this is left; whether it did. */
  #need(height: number): boolean {
    if (this.#doc.y + height <= this.#doc.page.height - MARGIN - 18) return false;
    this.#doc.addPage();
    return true;
  }

  #tagged(tag: string, write: () => void): void {
    this.#doc.addStructure(this.#doc.struct(tag, {}, write));
  }

  /** Only what some file of the font can show. */
  #writable(words: string): string {
    const known = (sign: string) => sign === "\n" || this.#covers.some(({ has }) => has(sign.codePointAt(0) ?? 0));
    return [...words.normalize("NFC").replace(/[^\P{Cc}\n]/gu, "")].map((sign) => (known(sign) ? sign : (WRITTEN_AS[sign] ?? "?"))).join("");
  }

  #write(words: string, { size, weight = "plain", color = INK, at, align = "left" }: { size: number; weight?: Weight; color?: string; at?: { x: number; y: number; width: number }; align?: "left" | "right" }): void {
    const doc = this.#doc;
    const runs = this.#runsOf(this.#writable(words));
    doc.fontSize(size).fillColor(color);
    runs.forEach(({ subset, text }, index) => {
      doc.font(`${weight}-${subset}`);
      // A run that follows another keeps its line; several runs cannot be set to the right.
      const options = { continued: index < runs.length - 1, align: runs.length > 1 ? ("left" as const) : align };
      if (at && index === 0) doc.text(text, at.x, at.y, { ...options, width: at.width });
      else doc.text(text, options);
    });
  }

  /** A text cut where another file of the font takes over. */
  #runsOf(words: string): { subset: (typeof SUBSETS)[number]; text: string }[] {
    const runs: { subset: (typeof SUBSETS)[number]; text: string }[] = [];
    for (const sign of words) {
      const last = runs.at(-1);
      const code = sign.codePointAt(0) ?? 0;
      const subset = sign === "\n" ? (last?.subset ?? "latin") : (this.#covers.find(({ has }) => has(code))?.name ?? "latin");
      if (last?.subset === subset) last.text += sign;
      else runs.push({ subset, text: sign });
    }
    return runs.length > 0 ? runs : [{ subset: "latin", text: " " }];
  }
}
