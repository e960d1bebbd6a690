import "server-only";
import { createHash } from "node:crypto";
import { fileTypeFromBuffer } from "file-type";
import type { Encoding } from "@/lib/domain/imports/reading";

/** Enough to tell a type by its content, and to read a heading. */
const HEAD_BYTES = 65_536;

export type TextFile = { ok: true; encoding: Encoding; bytes: number; sha256: string } | { ok: false; reason: "empty" | "not-text" };

/**
 * Looks at a file as it passes by, byte for byte and in bounded memory: whether it is text, and in which encoding. The mark
 * at its beginning tells, or zero bytes at every other place; what is no UTF-8 is taken for Windows-1252, in which old
 * spreadsheets write.
 */
export class TextInspector {
  readonly #hash = createHash("sha256");
  readonly #utf8 = new TextDecoder("utf-8", { fatal: true });
  #head = Buffer.alloc(0);
  #bytes = 0;
  #isUtf8 = true;
  #hasZeros = false;

  take(chunk: Uint8Array): void {
    this.#hash.update(chunk);
    this.#bytes += chunk.length;
    if (this.#head.length < HEAD_BYTES) this.#head = Buffer.concat([this.#head, chunk.subarray(0, HEAD_BYTES - this.#head.length)]);
    this.#hasZeros ||= chunk.includes(0);
    if (this.#isUtf8) this.#tryUtf8(chunk);
  }

  async end(): Promise<TextFile> {
    if (this.#bytes === 0) return { ok: false, reason: "empty" };
    if (this.#isUtf8) this.#tryUtf8();
    const encoding = utf16Of(this.#head) ?? (this.#isUtf8 ? "utf-8" : "windows-1252");
    const isWide = encoding === "utf-16le" || encoding === "utf-16be";
    if (this.#hasZeros && !isWide) return { ok: false, reason: "not-text" };
    // A PDF, a workbook or a picture may hold no zero byte where one looks.
    if (!isWide && (await fileTypeFromBuffer(this.#head))) return { ok: false, reason: "not-text" };
    return { ok: true, encoding, bytes: this.#bytes, sha256: this.#hash.digest("hex") };
  }

  #tryUtf8(chunk?: Uint8Array): void {
    try {
      this.#utf8.decode(chunk, { stream: chunk !== undefined });
    } catch {
      this.#isUtf8 = false;
    }
  }
}

function utf16Of(head: Buffer): Encoding | null {
  if (head[0] === 0xff && head[1] === 0xfe) return "utf-16le";
  if (head[0] === 0xfe && head[1] === 0xff) return "utf-16be";
  const pairs = Math.floor(Math.min(head.length, 1000) / 2);
  if (pairs < 4) return null;
  let even = 0;
  let odd = 0;
  for (let pair = 0; pair < pairs; pair += 1) {
    if (head[2 * pair] === 0) even += 1;
    if (head[2 * pair + 1] === 0) odd += 1;
  }
  // Nearly every sign of a western text has one zero byte, and always the same.
  if (odd > 0.7 * pairs && even === 0) return "utf-16le";
  return even > 0.7 * pairs && odd === 0 ? "utf-16be" : null;
}
