import "server-only";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { env } from "@/lib/env";

let known: Promise<string> | undefined;

/** Which build this process serves: a copy of its pages on a device holds until there is another. */
export function buildId(): Promise<string> {
  known ??= readFile(path.join(env.NEXT_DIST_DIR, "BUILD_ID"), "utf8").then(
    (id) => id.trim(),
    () => "development",
  );
  return known;
}
