import { MOST_BENCH_PHOTOS } from "@/lib/domain/claims/bench-steps";

/** What can go wrong with a photo of the bench: the status and the sentence. */
export const BENCH_PHOTO_PROBLEMS = {
  "wrong-origin": [403, "This request came from another site"],
  "not-signed-in": [401, "Sign in again to send photos"],
  "not-allowed": [403, "You may not take photos of this claim"],
  "not-on-the-bench": [404, "No inspection of this unit is under way"],
  "no-form": [400, "Take a photo, six at most at once"],
  empty: [400, "The photo is empty. Take it again"],
  "too-big": [413, "The photo is larger than 25 MB"],
  "not-a-photo": [415, "This is not a photo we can read"],
  "too-many-pixels": [413, "The picture has more than 64 million pixels"],
  damaged: [400, "The photo is damaged. Take it again"],
  "too-many-photos": [409, `The bench keeps ${MOST_BENCH_PHOTOS} photos of a claim. No more fit`],
  busy: [503, "Many photos are arriving just now. Wait a minute and send it again"],
} as const;
export type BenchPhotoProblem = keyof typeof BENCH_PHOTO_PROBLEMS;

export function refuseBenchPhoto(problem: BenchPhotoProblem): Response {
  const [status, message] = BENCH_PHOTO_PROBLEMS[problem];
  return Response.json({ problem, message }, { status });
}

/** The sentence for a problem named in an address, or null when there is none of that name. */
export function benchPhotoProblem(name: string | undefined): string | null {
  return name !== undefined && Object.hasOwn(BENCH_PHOTO_PROBLEMS, name) ? BENCH_PHOTO_PROBLEMS[name as BenchPhotoProblem][1] : null;
}
