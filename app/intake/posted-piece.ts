import { PIECE_BYTES } from "@/lib/domain/intake/photo-pieces";
import type { Piece } from "@/lib/operations/receive-piece";

export const IS_ID = /^[0-9a-f]{8}-(?:[0-9a-f]{4}-){3}[0-9a-f]{12}$/;

/** One piece of a photo as a device posts it: its place and the size of the whole stand in the address. Null when it is none. */
export async function readPiece(request: Request, uploadId: string): Promise<Piece | null> {
  const asked = new URL(request.url).searchParams;
  const [begin, bytes] = [Number(asked.get("begin")), Number(asked.get("bytes"))];
  const content = await readContent(request);
  if (!IS_ID.test(uploadId) || !Number.isSafeInteger(begin) || !Number.isSafeInteger(bytes) || begin < 0 || !content) return null;
  return { uploadId, begin, bytes, content };
}

/** The bytes of a piece; null when they are more than one may have. */
async function readContent(request: Request): Promise<Uint8Array | null> {
  const chunks: Uint8Array[] = [];
  let read = 0;
  for await (const chunk of request.body ?? []) {
    read += chunk.length;
    if (read > PIECE_BYTES) return null;
    chunks.push(chunk);
  }
  return new Uint8Array(Buffer.concat(chunks));
}
