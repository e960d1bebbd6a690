import { LANGUAGES } from "@/lib/domain/claims/languages";
import { buildId } from "@/lib/files/build-id";
import { editionNumberInForce } from "@/lib/operations/load-offline-intake";
import { serviceWorker } from "./service-worker";

/** The service worker of the intake. It changes with the build, the questions and the day, and then fetches its copy anew. */
export async function GET(request: Request) {
  const asked = new URL(request.url).searchParams.get("language");
  const language = LANGUAGES.find((one) => one === asked) ?? LANGUAGES[0];
  const version = `${await buildId()}.${await editionNumberInForce()}.${new Date().toISOString().slice(0, 10)}.${language}`;
  return new Response(serviceWorker(version, language), { headers: { "content-type": "text/javascript; charset=utf-8", "cache-control": "no-cache", "service-worker-allowed": "/intake" } });
}
