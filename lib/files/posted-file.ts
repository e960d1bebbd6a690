import "server-only";
import { createWriteStream } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { once } from "node:events";
import { finished } from "node:stream/promises";

/** A form as it arrives: its type with the mark between its parts, and its body. */
export interface PostedForm {
  contentType: string | null;
  body: AsyncIterable<Uint8Array> | null;
}

export interface PostedFile {
  /** The fields that stood before the file. */
  fields: Readonly<Record<string, string>>;
  /** As the sender called it, without folders. */
  name: string;
  /** Where it lies while `work` runs. */
  path: string;
}

export type PostedRefusal = "no-form" | "too-big";

const LONGEST_HEADERS = 8192;
const LONGEST_FIELD = 1000;
/** What is read of a form that is too big, so that the browser shows the answer and not a broken connection. */
const MOST_PASSED_OVER = 500 * 1024 * 1024;

/**
 * Writes the one file of a posted form (`multipart/form-data`, RFC 7578) to a temporary place as it arrives, in bounded
 * memory, and does the work with it; then the file is gone.
 *
 * @param most bytes of the form
 * @param onChunk told of each piece of the file
 */
export async function withPostedFile<T>({ contentType, body }: PostedForm, most: number, onChunk: (chunk: Uint8Array) => void, work: (file: PostedFile) => Promise<T>): Promise<T | PostedRefusal> {
  const boundary = /^multipart\/form-data;.*\bboundary=(?:"([^"]{1,70})"|([^\s;"]{1,70}))/i.exec(contentType ?? "");
  if (!boundary || !body) return "no-form";
  const folder = await mkdtemp(path.join(os.tmpdir(), "posted-"));
  const place = path.join(folder, "file");
  const out = createWriteStream(place, { mode: 0o600 });
  const written = finished(out);
  // Heard from the beginning: the error of a full disk would otherwise be nobody's, and end the process.
  written.catch(() => {});
  try {
    const fields: Record<string, string> = {};
    let name: string | undefined;
    let read = 0;
    const parts = new PartsOfForm(boundary[1] ?? boundary[2] ?? "");
    for await (const chunk of body) {
      read += chunk.length;
      if (read > most + MOST_PASSED_OVER) return "too-big";
      if (read > most) continue;
      for (const { part, content } of parts.take(chunk)) {
        if (part.fileName === undefined) {
          fields[part.name] = (fields[part.name] ?? "") + content.toString("utf8");
          if ((fields[part.name]?.length ?? 0) > LONGEST_FIELD) return "no-form";
        } else if (name === undefined || name === part.fileName) {
          name = part.fileName;
          onChunk(content);
          if (!out.write(content)) await Promise.race([once(out, "drain"), written]);
        }
      }
      if (parts.isBroken) return "no-form";
    }
    if (read > most) return "too-big";
    if (!parts.isDone || name === undefined) return "no-form";
    out.end();
    await written;
    return await work({ fields, name: path.basename(name.replaceAll("\\", "/")), path: place });
  } finally {
    out.destroy();
    await rm(folder, { recursive: true, force: true });
  }
}

interface Part {
  name: string;
  fileName?: string;
}

/** Takes a form apart piece by piece; the mark between parts may be cut anywhere. */
export class PartsOfForm {
  readonly #mark: Buffer;
  // The first mark has no line break before it.
  #pending: Buffer = Buffer.from("\r\n");
  #part: Part | null = null;
  #state: "content" | "after-mark" | "headers" | "done" | "broken" = "content";

  constructor(boundary: string) {
    this.#mark = Buffer.from(`\r\n--${boundary}`);
  }

  get isDone(): boolean {
    return this.#state === "done";
  }

  get isBroken(): boolean {
    return this.#state === "broken";
  }

  /** What these bytes add to the parts, in order. */
  *take(chunk: Uint8Array): Generator<{ part: Part; content: Buffer }> {
    this.#pending = Buffer.concat([this.#pending, chunk]);
    for (;;) {
      if (this.#state === "content") {
        const end = this.#pending.indexOf(this.#mark);
        // What may be the beginning of a mark waits for the rest.
        const known = end === -1 ? Math.max(0, this.#pending.length - this.#mark.length + 1) : end;
        if (this.#part) yield { part: this.#part, content: this.#pending.subarray(0, known) };
        this.#pending = this.#pending.subarray(end === -1 ? known : end + this.#mark.length);
        if (end === -1) return;
        this.#state = "after-mark";
      } else if (this.#state === "after-mark") {
        if (this.#pending.length < 2) return;
        const next = this.#pending.toString("latin1", 0, 2);
        this.#pending = this.#pending.subarray(2);
        this.#state = next === "--" ? "done" : next === "\r\n" ? "headers" : "broken";
      } else if (this.#state === "headers") {
        const end = this.#pending.indexOf("\r\n\r\n");
        if (end === -1 && this.#pending.length <= LONGEST_HEADERS) return;
        this.#part = end === -1 ? null : partOf(this.#pending.toString("utf8", 0, end));
        this.#pending = this.#pending.subarray(end + 4);
        this.#state = this.#part ? "content" : "broken";
      } else {
        return;
      }
    }
  }
}

function partOf(headers: string): Part | null {
  const disposition = /^content-disposition:\s*form-data;(.*)$/im.exec(headers)?.[1] ?? "";
  const name = /(?:^|;)\s*name="([^"]*)"/i.exec(disposition)?.[1];
  const fileName = /;\s*filename="([^"]*)"/i.exec(disposition)?.[1];
  if (name === undefined) return null;
  return fileName === undefined ? { name } : { name, fileName };
}
