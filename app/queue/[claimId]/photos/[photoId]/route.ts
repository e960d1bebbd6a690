import { currentStaff } from "@/lib/access/staff";
import { loadPhoto } from "@/lib/operations/load-photo";
import { z } from "zod";

const identifier = z.guid();

/** A photo of a claim, for staff; `?size=small` is the thumbnail. A stranger learns nothing. */
export async function GET(request: Request, { params }: { params: Promise<{ claimId: string; photoId: string }> }) {
  const [{ claimId, photoId }, actor] = await Promise.all([params, currentStaff()]);
  const isNamed = identifier.safeParse(claimId).success && identifier.safeParse(photoId).success;
  const size = new URL(request.url).searchParams.get("size") === "small" ? "small" : "full";
  const photo = actor && isNamed ? await loadPhoto(actor, claimId, photoId, size) : null;
  if (!photo?.ok) return new Response("There is no such photo", { status: 404 });
  return new Response(new Uint8Array(photo.jpeg), { headers: { "content-type": "image/jpeg", "cache-control": "private, max-age=86400, immutable", "content-disposition": "inline" } });
}
