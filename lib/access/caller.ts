import "server-only";
import { headers } from "next/headers";
import { SHARED_CALLER } from "@/lib/data/rate-limit";
import { env } from "@/lib/env";

/**
 * The client's address for rate limits. A proxy header is believed only where trusted proxies are configured, and then
 * only the entry that the outermost of them wrote; without a proxy there is no address, and all callers share a count.
 */
export async function callerAddress(): Promise<string> {
  if (env.TRUSTED_PROXY === 0) return SHARED_CALLER;
  const forwarded = (await headers()).get("x-forwarded-for") ?? "";
  return forwarded.split(",").at(-env.TRUSTED_PROXY)?.trim() || "unknown";
}
