/**
 * The service worker's script. It keeps one page, `/intake/offline`, fetched without cookies so that nothing in it is about
 * anybody, the scripts, styles and fonts it is made of, and the worker that shrinks photos. Without a signal every page of
 * the intake is answered by it; with one it stays out of the way.
 */
export function serviceWorker(version: string, language: string): string {
  return `
const CACHE = ${JSON.stringify(`fit-or-fault.${version}`)};
const PAGE = "/intake/offline";
const SHRINKER = "/photo-shrinker.js";
const PARTS = /\\/_next\\/static\\/[\\w.~/-]+\\.(?:js|css|woff2)/g;

async function keepPart(cache, part) {
  if (await cache.match(part)) return;
  const answer = await fetch(part);
  if (!answer.ok) throw new Error(part);
  const fonts = part.endsWith(".css") ? [...(await answer.clone().text()).matchAll(/url\\(["']?([^"')]+\\.woff2)/g)].map(([, font]) => new URL(font, answer.url).pathname) : [];
  await cache.put(part, answer);
  await Promise.all(fonts.map((font) => keepPart(cache, font)));
}

async function keepPage() {
  const cache = await caches.open(CACHE);
  const page = await fetch(PAGE, { credentials: "omit", cache: "no-store", headers: { "accept-language": ${JSON.stringify(language)} } });
  if (!page.ok) throw new Error(PAGE);
  const parts = new Set((await page.clone().text()).match(PARTS) ?? []);
  await Promise.all([...parts, SHRINKER].map((part) => keepPart(cache, part)));
  await cache.put(PAGE, page);
}

async function answerPage(request) {
  try {
    return await fetch(request);
  } catch (lost) {
    const { pathname } = new URL(request.url);
    // A page that leads on, to an address that names what was asked for.
    if (pathname !== PAGE) return new Response('<meta http-equiv="refresh" content="0;url=' + PAGE + "#" + encodeURIComponent(pathname.split("/")[2] ?? "") + '">', { headers: { "content-type": "text/html" } });
    return (await (await caches.open(CACHE)).match(PAGE, { ignoreVary: true, ignoreSearch: true })) ?? Promise.reject(lost);
  }
}

async function answerPart(request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request, { ignoreVary: true });
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) await cache.put(request, answer.clone());
  return answer;
}

self.addEventListener("install", (event) => {
  self.skipWaiting();
  event.waitUntil(keepPage());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name.startsWith("fit-or-fault.") && name !== CACHE) await caches.delete(name);
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (request.mode === "navigate") event.respondWith(answerPage(request));
  else if (url.pathname === SHRINKER || url.pathname.startsWith("/_next/static/")) event.respondWith(answerPart(request));
});

// What the page has fetched before the worker stood by.
self.addEventListener("message", (event) => {
  const parts = [...new Set(String(event.data).match(PARTS) ?? [])];
  event.waitUntil(caches.open(CACHE).then((cache) => Promise.all(parts.map((part) => keepPart(cache, part).catch(() => {})))));
});
`;
}
