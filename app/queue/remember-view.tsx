"use client";

import { useEffect } from "react";
import { VIEW_COOKIE } from "./view-cookie";

/** Keeps which view of the queue this browser looked at last: what follows an act on a claim comes from it. */
export function RememberView({ query }: { query: string }) {
  useEffect(() => {
    // biome-ignore lint/suspicious/noDocumentCookie: the cookie store is not there in every browser
    document.cookie = `${VIEW_COOKIE}=${encodeURIComponent(query)}; path=/queue; samesite=lax`;
  }, [query]);
  return null;
}
