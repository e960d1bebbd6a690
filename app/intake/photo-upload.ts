import type { CustomerActor } from "@/lib/access/actors";
import { callerAddress } from "@/lib/access/caller";
import { currentWords } from "@/lib/access/language";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { type Language, preferredLanguage } from "@/lib/domain/claims/languages";
import { MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { type Words, wordsIn } from "@/lib/messages/words";
import { attachPhoto, mayUpload } from "@/lib/operations/attach-photo";
import { howMuchArrived, receivePiece } from "@/lib/operations/receive-piece";
import { withForm } from "./photo-form";
import { IS_ID, readPiece } from "./posted-piece";

/** What can go wrong with a photo, and the status that says so. */
const PROBLEMS = {
  "no-claim": 401,
  "wrong-origin": 403,
  "no-form": 400,
  empty: 400,
  "too-big": 413,
  "not-a-photo": 415,
  "too-many-pixels": 413,
  damaged: 400,
  "too-many-photos": 409,
  busy: 503,
  "too-many-tries": 429,
} as const;
type Problem = keyof typeof PROBLEMS;

/** The sentence for a problem named in an address, or null when there is none of that name. */
export async function photoProblem(name: string | undefined): Promise<string | null> {
  return name !== undefined && name in PROBLEMS ? inWords(name as Problem, await currentWords()) : null;
}

function inWords(problem: Problem, words: Words): string {
  return problem === "too-many-photos" ? words("photos.problem.too-many-photos", { most: MOST_PHOTOS }) : words(`photos.problem.${problem}`);
}

function refusal(problem: Problem, language: Language): Response {
  return Response.json({ problem, message: inWords(problem, wordsIn(language)) }, { status: PROBLEMS[problem] });
}

/** The language to tell a problem in: the customer's, or the first of the browser's list that we have. */
const readsIn = (actor: CustomerActor | null, request: Request): Language => actor?.language ?? preferredLanguage(request.headers.get("accept-language") ?? "");

/**
 * Takes in the photos of a posted form, one or several, and answers in JSON; a form sent without script is led back.
 * Nothing is read before the try is counted.
 *
 * @param back the page with the form
 */
export async function receivePhotos(request: Request, actor: CustomerActor | null, back: string): Promise<Response> {
  const isPage = request.headers.get("accept")?.includes("text/html") ?? false;
  const answer = (problem: Problem) => (isPage && problem !== "wrong-origin" ? seeOther(`${back}?problem=${problem}`) : refusal(problem, readsIn(actor, request)));
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

/** How much of a photo has arrived, for the device that goes on sending it. */
export async function tellHowMuchArrived(request: Request, actor: CustomerActor | null, uploadId: string): Promise<Response> {
  if (!actor) return refusal("no-claim", readsIn(actor, request));
  if (!IS_ID.test(uploadId)) return refusal("no-form", actor.language);
  return Response.json(await howMuchArrived(actor, uploadId));
}

/** Takes in one piece of a photo, and answers how much has arrived. */
export async function takePiece(request: Request, actor: CustomerActor | null, uploadId: string): Promise<Response> {
  const language = readsIn(actor, request);
  if (!isOwnOrigin(request.headers.get("origin"))) return refusal("wrong-origin", language);
  if (!actor) return refusal("no-claim", language);
  const piece = await readPiece(request, uploadId);
  if (!piece) return refusal("no-form", language);
  const taken = await receivePiece(actor, piece, await callerAddress());
  if (taken.ok) return Response.json({ received: taken.received, isWhole: taken.isWhole }, { status: taken.isWhole ? 201 : 200 });
  if (taken.reason !== "another-piece") return refusal(taken.reason, language);
  return Response.json({ received: taken.received, isWhole: false });
}

const seeOther = (location: string) => new Response(null, { status: 303, headers: { location } });
