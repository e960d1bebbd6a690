import "server-only";
import { z } from "zod";
import type { Actor } from "@/lib/access/actors";
import { loadPhoto } from "@/lib/operations/load-photo";

const identifier = z.guid();

/**
 * A photo of a claim for whoever may see it; `?size=small` is the thumbnail. A stranger learns nothing. The browser keeps a
 * photo, which never changes, and asks before it shows it again: on a shared device it is gone with its owner's key.
 */
export async function photoAnswer(request: Request, actor: Actor | null, claimId: string, photoId: string): Promise<Response> {
  const size = new URL(request.url).searchParams.get("size") === "small" ? "small" : "full";
  const isNamed = identifier.safeParse(claimId).success && identifier.safeParse(photoId).success;
  const etag = `"${photoId}-${size}"`;
  const photo = actor && isNamed ? await loadPhoto(actor, claimId, photoId, size, request.headers.get("if-none-match") === etag) : null;
  if (!photo?.ok) return new Response("There is no such photo", { status: 404, headers: { "cache-control": "private, no-store" } });
  const headers = { etag, "cache-control": "private, no-cache", "x-content-type-options": "nosniff", "content-disposition": "inline" };
  if (photo.jpeg === null) return new Response(null, { status: 304, headers });
  return new Response(new Uint8Array(photo.jpeg), { headers: { ...headers, "content-type": "image/jpeg" } });
}
