import { timingSafeEqual } from "node:crypto";
import { hashSecret } from "@/lib/access/secrets";
import { env } from "@/lib/env";
import { takeBounceReport } from "@/lib/operations/note-bounce";

/** A report carries the headers of one mail, seldom its whole text. */
const MOST_BYTES = 256 * 1024;

/** Reports of mail that could not be delivered, passed on by the mail server with our secret: 204 taken, 202 not about our mail. */
export async function POST(request: Request): Promise<Response> {
  if (!env.BOUNCE_SECRET) return new Response(null, { status: 404 });
  if (!isOurs(request.headers.get("authorization") ?? "", env.BOUNCE_SECRET)) return new Response(null, { status: 401 });
  const raw = await textOf(request);
  if (raw === null) return new Response(null, { status: 413 });
  return new Response(null, { status: (await takeBounceReport(raw)).ok ? 204 : 202 });
}

function isOurs(given: string, secret: string): boolean {
  return timingSafeEqual(Buffer.from(hashSecret(given)), Buffer.from(hashSecret(`Bearer ${secret}`)));
}

/** The body as text, null as soon as it is longer than a report. */
async function textOf(request: Request): Promise<string | null> {
  const pieces: Uint8Array[] = [];
  let bytes = 0;
  for await (const piece of request.body ?? []) {
    bytes += piece.byteLength;
    if (bytes > MOST_BYTES) return null;
    pieces.push(piece);
  }
  return Buffer.concat(pieces).toString("utf8");
}
