import "server-only";
import { PdfSheets } from "./pdf";

export interface LetterToPrint {
  /** As it was sent: paragraphs parted by an empty line, a heading on the first line of some. */
  text: string;
  /** What the document is called, and what stands at its foot. */
  title: string;
  day: string;
  language: string;
  paper: "A4" | "LETTER";
  seller: { name: string; address: readonly string[] };
  pictures: readonly { jpeg: Buffer; caption: string }[];
  now: Date;
}

/** The letter of a verdict on paper, with the photos that go with it. */
export function letterPdf({ text, title, day, language, paper, seller, pictures, now }: LetterToPrint): Promise<Buffer> {
  const sheets = new PdfSheets({ title, author: seller.name, paper, language, foot: `${seller.name}, ${title}`, now });
  sheets.heading(seller.name, 1);
  sheets.paragraph(seller.address.join("\n"), { isSmall: true });
  sheets.paragraph(day);
  for (const paragraph of text.split("\n\n")) {
    const [first = "", ...rest] = paragraph.split("\n");
    if (rest.length > 0 && first.endsWith(":")) sheets.heading(first);
    sheets.paragraph(rest.length > 0 && first.endsWith(":") ? rest.join("\n") : paragraph);
  }
  for (const { jpeg, caption } of pictures) sheets.picture(jpeg, caption);
  return sheets.finish();
}
