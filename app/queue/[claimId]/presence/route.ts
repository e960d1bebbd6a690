import { z } from "zod";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { beInClaim, leaveClaim } from "@/lib/operations/be-in-claim";

const STATUS = { "not-allowed": 403, "not-found": 404 } as const;

/** A sign of life of an open claim, or with `?left` the last one. Answers who else is in it. */
export async function POST(request: Request, { params }: { params: Promise<{ claimId: string }> }): Promise<Response> {
  const { claimId } = await params;
  if (!isOwnOrigin(request.headers.get("origin"))) return new Response(null, { status: 403 });
  if (!z.guid().safeParse(claimId).success) return new Response(null, { status: 404 });
  const actor = await currentStaff();
  if (!actor) return new Response(null, { status: 401 });
  const done = new URL(request.url).searchParams.has("left") ? await leaveClaim(actor, claimId) : await beInClaim(actor, claimId);
  if (!done.ok) return new Response(null, { status: STATUS[done.reason] });
  return Response.json("others" in done ? { others: done.others } : {}, { headers: { "cache-control": "no-store" } });
}
