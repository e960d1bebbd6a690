import { callerAddress } from "@/lib/access/caller";
import type { CustomerActor } from "@/lib/access/actors";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { attachPhoto, mayUpload } from "@/lib/operations/attach-photo";
import { loadPhoto } from "@/lib/operations/load-photo";
import { withForm } from "./photo-form";

/** What can go wrong with a photo: the status and the sentence. */
const PROBLEMS = {
  "no-claim": [401, "This complaint is not open in this browser. Open it with the link in our mail"],
  "wrong-origin": [403, "This request came from another site"],
  "no-form": [400, "Send the photo as a form"],
  empty: [400, "The photo is empty. Take it again, or choose another"],
  "too-big": [413, "The photo is larger than 25 MB, or several together than 30 MB. Send a smaller one, or fewer at once"],
  "not-a-photo": [415, "This is not a photo we can read. Send a JPEG, PNG, WebP or HEIC picture"],
  "too-many-pixels": [413, "The picture has more than 64 million pixels. Send a smaller one"],
  damaged: [400, "The photo is damaged. Take it again, or choose another"],
  "too-many-photos": [409, `A complaint takes ${MOST_PHOTOS} photos. Remove one first`],
  busy: [503, "Many photos are arriving just now. Wait a minute and send it again"],
  "too-many-tries": [429, "Too many photos in a short time. Wait ten minutes and go on"],
} as const;
type Problem = keyof typeof PROBLEMS;

/** The sentence for a problem named in an address, or null when there is none of that name. */
export function photoProblem(name: string | undefined): string | null {
  return name !== undefined && name in PROBLEMS ? PROBLEMS[name as Problem][1] : null;
}

/**
 * Takes in the photos of a posted form, one or several, and answers in JSON; a form sent without script is led back.
 * Nothing is read before the try is counted.
 *
 * @param back the page with the form
 */
export async function receivePhotos(request: Request, actor: CustomerActor | null, back: string): Promise<Response> {
  const isPage = request.headers.get("accept")?.includes("text/html") ?? false;
  const answer = (problem: Problem) => {
    if (isPage && problem !== "wrong-origin") return seeOther(`${back}?problem=${problem}`);
    const [status, message] = PROBLEMS[problem];
    return Response.json({ problem, message }, { status });
  };
  if (!isOwnOrigin(request.headers.get("origin"))) return answer("wrong-origin");
  if (!actor) return answer("no-claim");
  if (!(await mayUpload(await callerAddress()))) return answer("too-many-tries");
  const photos = await withForm(request, (form) => attachAll(actor, form));
  if (typeof photos === "string") return answer(photos);
  return isPage ? seeOther(back) : Response.json({ photos }, { status: 201 });
}

/** The ids of the photos that a form brought, or why one of them was refused; those before it are kept. */
async function attachAll(actor: CustomerActor, form: FormData): Promise<string[] | Problem> {
  const files = form.getAll("photo").filter((value) => value instanceof File);
  if (files.length === 0) return "no-form";
  if (files.length > MOST_PHOTOS) return "too-many-photos";
  const photos: string[] = [];
  for (const file of files) {
    const attached = await attachPhoto(actor, new Uint8Array(await file.arrayBuffer()));
    if (!attached.ok) return attached.reason;
    photos.push(attached.photoId);
  }
  return photos;
}

/** A photo for its owner alone. */
export async function sendPhoto(request: Request, actor: CustomerActor | null, photoId: string): Promise<Response> {
  const size = new URL(request.url).searchParams.get("size") === "small" ? "small" : "full";
  const photo = actor && /^[0-9a-f-]{36}$/.test(photoId) ? await loadPhoto(actor, actor.claimId, photoId, size) : null;
  if (!photo?.ok) return new Response("There is no such photo", { status: 404 });
  return new Response(new Uint8Array(photo.jpeg), {
    headers: { "content-type": "image/jpeg", "cache-control": "private, max-age=86400, immutable", "x-content-type-options": "nosniff", "content-disposition": "inline" },
  });
}

const seeOther = (location: string) => new Response(null, { status: 303, headers: { location } });
