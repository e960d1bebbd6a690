import { inflateSync } from "node:zlib";

/**
 * Everything readable in a PDF of ours: the words on its pages, by the fonts' own tables of characters, and what stands
 * in its other parts, such as title and alternative texts. Enough to search; the order of words is that of drawing.
 */
export function readPdf(pdf: Buffer): { text: string; rest: string } {
  const raw = pdf.toString("latin1");
  const objects = [...raw.matchAll(/(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map(([, number, body = ""]) => ({ number: Number(number), dictionary: body.split("\nstream\n")[0] ?? "", stream: streamOf(body) }));
  const byNumber = new Map(objects.map((one) => [one.number, one]));
  const fonts = new Map<string, ReadonlyMap<string, string>>();
  for (const { dictionary } of objects) {
    for (const [, name = "", number] of dictionary.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
      const cmap = /\/ToUnicode (\d+) 0 R/.exec(byNumber.get(Number(number))?.dictionary ?? "")?.[1];
      if (cmap) fonts.set(name, charactersOf(byNumber.get(Number(cmap))?.stream ?? ""));
    }
  }
  let text = "";
  for (const { dictionary, stream } of objects) {
    if (!stream || /\/(ToUnicode|Subtype|Length1|Type)\b/.test(dictionary) || !stream.includes("BT")) continue;
    let font: ReadonlyMap<string, string> | undefined;
    for (const [, name, shown] of stream.matchAll(/\/(F\d+) [\d.]+ Tf|\[([^\]]*)\] TJ/g)) {
      if (name) font = fonts.get(name);
      else text += `${[...(shown ?? "").matchAll(/<([0-9a-f]+)>/gi)].map(([, hex = ""]) => (hex.match(/.{4}/g) ?? []).map((glyph) => font?.get(glyph.toLowerCase()) ?? "\ufffd").join("")).join("")}\n`;
    }
  }
  const strings = objects.flatMap(({ dictionary }) => [...dictionary.matchAll(/\(((?:\\.|[^\\)])*)\)/g)].map(([, inner = ""]) => literal(inner)));
  return { text, rest: strings.join("\n") };
}

/** The rectangles that are filled on the pages of a PDF of ours, in points from the upper left corner. */
export function filledRectangles(pdf: Buffer): readonly { x: number; y: number; width: number; height: number }[] {
  const streams = [...pdf.toString("latin1").matchAll(/\d+ 0 obj\n([\s\S]*?)\nendobj/g)].map(([, body = ""]) => streamOf(body)).filter((stream) => stream.includes("BT"));
  // pdfkit turns the page over first, so that figures count downwards.
  return streams.flatMap((stream) =>
    [...stream.matchAll(/((?:[-\d.]+ [-\d.]+ [-\d.]+ [-\d.]+ re\n)+)f\n/g)].flatMap(([, path = ""]) =>
      path.trim().split("\n").map((line) => {
        const [x = 0, y = 0, width = 0, height = 0] = line.split(" ").map(Number);
        return { x, y, width, height };
      }),
    ),
  );
}

function streamOf(body: string): string {
  const begin = body.indexOf("\nstream\n");
  if (begin < 0) return "";
  const bytes = Buffer.from(body.slice(begin + 8, body.lastIndexOf("\nendstream")), "latin1");
  return body.slice(0, begin).includes("/FlateDecode") ? inflateSync(bytes).toString("latin1") : bytes.toString("latin1");
}

/** Characters by glyph, from the ranges of a font's table. */
function charactersOf(cmap: string): ReadonlyMap<string, string> {
  const characters = new Map<string, string>();
  for (const [, first = "", list = ""] of cmap.matchAll(/<([0-9a-f]+)> <[0-9a-f]+> \[([^\]]*)\]/gi))
    [...list.matchAll(/<([0-9a-f]*)>/gi)].forEach(([, hex = ""], index) => {
      const code = (Number.parseInt(first, 16) + index).toString(16).padStart(4, "0");
      characters.set(code, Buffer.from(hex, "hex").swap16().toString("utf16le"));
    });
  return characters;
}

/** Titles are written in two bytes a sign, with a mark in front. */
function literal(inner: string): string {
  const bytes = Buffer.from(inner.replace(/\\([nrtbf()\\]|[0-7]{1,3})/g, (_, sign: string) => ({ n: "\n", r: "\r", t: "\t", b: "\b", f: "\f" })[sign] ?? (/[0-7]/.test(sign) ? String.fromCharCode(Number.parseInt(sign, 8)) : sign)), "latin1");
  return bytes[0] === 0xfe && bytes[1] === 0xff && bytes.length % 2 === 0 ? Buffer.from(bytes.subarray(2)).swap16().toString("utf16le") : bytes.toString("latin1");
}
