import "server-only";
import { createHash } from "node:crypto";

/** What tells whether a thing is still as somebody saw it: a digest of its fields, in whatever order they come. */
export function fingerprintOf(fields: object): string {
  return createHash("sha256").update(JSON.stringify(Object.entries(fields).sort(([a], [b]) => (a < b ? -1 : 1)))).digest("hex");
}
