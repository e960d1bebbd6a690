import type { Instrumentation } from "next";

/** In production, errors that Next prints become one line of the log: it would print their messages, which may name persons. */
export async function register() {
  // Next builds this for its edge runtime as well, which has no such log and serves nothing of ours.
  if (process.env.NEXT_RUNTIME !== "nodejs" || process.env.NODE_ENV !== "production") return;
  const { log } = await import("@/lib/log");
  const print = console.error;
  console.error = (...said: unknown[]) => {
    const error = said.find((part) => part instanceof Error);
    if (error) log.error({ event: "error", ...factsOf(error) });
    else print(...said);
  };
}

/** One line for a page, a route or an action that threw. Not its address, which may hold a key. */
export const onRequestError: Instrumentation.onRequestError = async (thrown, { method }, { routePath, routeType }) => {
  if (process.env.NEXT_RUNTIME !== "nodejs") return;
  const { log } = await import("@/lib/log");
  const { error, digest } = factsOf(thrown);
  log.error({ event: "request-failed", error, digest, route: routePath, kind: routeType, method });
};

/** What may be told of an error: its kind, the code that the person was shown, and where it was thrown; never its message. */
function factsOf(thrown: unknown) {
  const { name, code, digest, stack = "" }: Error & { code?: unknown; digest?: unknown } = thrown instanceof Error ? thrown : new Error();
  const at = stack.split("\n").flatMap((line) => /^ {4}at (.+)/.exec(line)?.[1] ?? []);
  return { error: name, code, digest, at: at.slice(0, 5) };
}
