import { type NextRequest, NextResponse } from "next/server";
import { isOwnOrigin } from "@/lib/access/own-origin";

/**
 * Sets the nonce and the content security policy on every page, passes on its path, turns away what another site's page has posted, and
 * nothing else: whether somebody may see or do a thing is decided in the operations. Photos and files of figures pass
 * beside it, since it would hold uploads in memory; they and static files carry the strict policy of `next.config.mjs`.
 */
export function proxy(request: NextRequest) {
  const nonce = crypto.randomUUID().replaceAll("-", "");
  const isDevelopment = process.env.NODE_ENV === "development";
  const policy = [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${isDevelopment ? " 'unsafe-eval'" : ""}`,
    // Development injects its styles from a script.
    `style-src 'self' ${isDevelopment ? "'unsafe-inline'" : `'nonce-${nonce}'`}`,
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join("; ");
  const headers = new Headers(request.headers);
  headers.set("x-nonce", nonce);
  // A layout is not told which page it frames; the language of a page depends on it.
  headers.set("x-page-path", request.nextUrl.pathname);
  headers.set("content-security-policy", policy);
  const origin = request.headers.get("origin");
  const isForeign = request.method === "POST" && origin !== null && !isOwnOrigin(origin);
  const response = isForeign ? new NextResponse("This request came from another site", { status: 403 }) : NextResponse.next({ request: { headers } });
  response.headers.set("content-security-policy", policy);
  return response;
}

export const config = { matcher: ["/((?!_next/static/|(?:intake|claim/[^/]+|queue/[^/]+/bench-inspection)/photos(?:/|$)|api/figures(?:/|$)|icon\\.svg$).*)"] };
