import { isReady } from "@/lib/operations/is-ready";

export const dynamic = "force-dynamic";

/** The database answers and every migration is in: traffic may come. */
export async function GET() {
  const ready = await isReady();
  return Response.json({ ready }, { status: ready ? 200 : 503, headers: { "cache-control": "no-store" } });
}
