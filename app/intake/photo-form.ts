import { twoAtATime } from "@/lib/files/two-at-a-time";

/** One photo of 25 MB and the form around it; without script, several photos together. */
const MOST_FORM_BYTES = 30 * 1024 * 1024;

/** What forms may hold of this process's memory at once. */
const MOST_HELD_BYTES = 6 * MOST_FORM_BYTES;
let held = 0;

/**
 * Reads the form of a request and does the work with it, of two forms at a time. A body is read no further than it may
 * be large, and while there is room for it.
 */
export async function withForm<T>(request: Request, work: (form: FormData) => Promise<T>): Promise<T | "too-big" | "busy" | "no-form"> {
  const type = request.headers.get("content-type") ?? "";
  if (!request.body || !type.startsWith("multipart/form-data")) return "no-form";
  if (Number(request.headers.get("content-length") ?? 0) > MOST_FORM_BYTES) return "too-big";
  const chunks: Uint8Array[] = [];
  let read = 0;
  try {
    for await (const chunk of request.body) {
      if (read + chunk.length > MOST_FORM_BYTES) return "too-big";
      if (held + chunk.length > MOST_HELD_BYTES) return "busy";
      read += chunk.length;
      held += chunk.length;
      chunks.push(chunk);
    }
    return await twoAtATime(async () => {
      const form = await readForm(Buffer.concat(chunks.splice(0)), type);
      return form ? work(form) : "no-form";
    });
  } finally {
    held -= read;
  }
}

async function readForm(body: Buffer<ArrayBuffer>, type: string): Promise<FormData | null> {
  try {
    return await new Response(body, { headers: { "content-type": type } }).formData();
  } catch {
    return null;
  }
}
