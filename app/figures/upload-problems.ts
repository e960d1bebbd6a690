import { MOST_IMPORT_BYTES } from "@/lib/domain/imports/reading";

const MOST_MB = Math.round(MOST_IMPORT_BYTES / 1024 / 1024);

/** What can go wrong with an upload: the status and the sentence. */
export const UPLOAD_PROBLEMS = {
  "wrong-origin": [403, "This request came from another site"],
  "not-signed-in": [401, "Sign in first"],
  "not-allowed": [403, "Your role may not bring in figures"],
  "no-form": [400, "The file did not arrive whole. Choose it and send it again"],
  "kind-unknown": [400, "Say what the file holds"],
  "too-big": [413, `The file is larger than ${MOST_MB} MB. Cut it into several, each with the heading line`],
  empty: [400, "The file is empty. Choose another"],
  "not-text": [415, "This is no CSV file. In your spreadsheet choose Save as, then CSV, and send that"],
} as const;
export type UploadProblem = keyof typeof UPLOAD_PROBLEMS;

/** The sentence for a problem named in an address, or undefined when there is none of that name. */
export function uploadProblem(name: unknown): string | undefined {
  return typeof name === "string" && Object.hasOwn(UPLOAD_PROBLEMS, name) ? UPLOAD_PROBLEMS[name as UploadProblem][1] : undefined;
}
