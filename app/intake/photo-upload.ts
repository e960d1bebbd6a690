import { callerAddress } from "@/lib/access/caller";
import type { CustomerActor } from "@/lib/access/actors";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { MOST_PHOTO_BYTES, MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { attachPhoto } from "@/lib/operations/attach-photo";
import { loadPhoto } from "@/lib/operations/load-photo";

/** What can go wrong with a photo: the status and the sentence. */
const PROBLEMS = {
  "no-claim": [401, "This complaint is not open in this browser. Open it with the link in our mail"],
  "wrong-origin": [403, "This request came from another site"],
  "no-form": [400, "Send the photo as a form"],
  empty: [400, "The photo is empty. Take it again, or choose another"],
  "too-big": [413, "The photo is larger than 25 MB. Send a smaller one"],
  "not-a-photo": [415, "This is not a photo we can read. Send a JPEG, PNG, WebP or HEIC picture"],
  "too-many-pixels": [413, "The picture has more than 64 million pixels. Send a smaller one"],
  damaged: [400, "The photo is damaged. Take it again, or choose another"],
  "too-many-photos": [409, `A complaint takes ${MOST_PHOTOS} photos. Remove one first`],
  "too-many-tries": [429, "Too many photos in a short time. Wait ten minutes and go on"],
} as const;
type Problem = keyof typeof PROBLEMS;

/** The sentence for a problem named in an address, or null when there is none of that name. */
export function photoProblem(name: string | undefined): string | null {
  return name !== undefined && name in PROBLEMS ? PROBLEMS[name as Problem][1] : null;
}

/** Room for the form around one photo. */
const MOST_FORM_BYTES = MOST_PHOTO_BYTES + 64 * 1024;

/**
 * Takes in the photos of a posted form, one or several, and answers in JSON; a form sent without script is led back.
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
  const limit = isPage ? MOST_PHOTOS * MOST_FORM_BYTES : MOST_FORM_BYTES;
  const form = await limitedForm(request, limit);
  if (form === "too-big" || form === "no-form") return answer(form);
  const files = form.getAll("photo").filter((value) => value instanceof File);
  if (files.length === 0) return answer("no-form");
  const photos: string[] = [];
  for (const file of files) {
    const attached = file.size > MOST_PHOTO_BYTES ? ({ ok: false, reason: "too-big" } as const) : await attachPhoto(actor, new Uint8Array(await file.arrayBuffer()), await callerAddress());
    if (!attached.ok) return answer(attached.reason);
    photos.push(attached.photoId);
  }
  return isPage ? seeOther(back) : Response.json({ photos }, { status: 201 });
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

/** The form of a request, read no further than `limit` bytes. */
async function limitedForm(request: Request, limit: number): Promise<FormData | "too-big" | "no-form"> {
  const type = request.headers.get("content-type") ?? "";
  if (!request.body || !type.startsWith("multipart/form-data")) return "no-form";
  if (Number(request.headers.get("content-length") ?? 0) > limit) return "too-big";
  let read = 0;
  let isOver = false;
  const counted = request.body.pipeThrough(
    new TransformStream<Uint8Array, Uint8Array>({
      transform(chunk, controller) {
        read += chunk.length;
        isOver = read > limit;
        if (isOver) controller.error(new Error("the form is larger than allowed"));
        else controller.enqueue(chunk);
      },
    }),
  );
  try {
    return await new Response(counted, { headers: { "content-type": type } }).formData();
  } catch {
    return isOver ? "too-big" : "no-form";
  }
}

const seeOther = (location: string) => new Response(null, { status: 303, headers: { location } });
