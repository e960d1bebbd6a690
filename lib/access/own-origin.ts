import "server-only";
import { headers } from "next/headers";
import { env } from "@/lib/env";

const LOOPBACK = new Set(["127.0.0.1", "localhost", "[::1]"]);

/** Whether a request's Origin header is this application's own. No header is a refusal: browsers send one on every POST. */
export function isOwnOrigin(origin: string | null, own: string = env.APP_ORIGIN): boolean {
  if (!origin || !URL.canParse(origin)) return false;
  const theirs = new URL(origin);
  const ours = new URL(own);
  if (theirs.origin === ours.origin) return true;
  // On one's own machine the same server answers to several names.
  return theirs.protocol === ours.protocol && theirs.port === ours.port && LOOPBACK.has(theirs.hostname) && LOOPBACK.has(ours.hostname);
}

/**
 * First line of every server action: refuses a request that another site's page has sent. Next compares Origin with
 * X-Forwarded-Host, which a caller may forge.
 *
 * @throws when the Origin is not our own
 */
export async function requireOwnOrigin(): Promise<void> {
  if (!isOwnOrigin((await headers()).get("origin"))) throw new Error("request from another origin refused");
}
