import { callerAddress } from "@/lib/access/caller";
import { currentIntakeCustomer, keepClaimKey, keepDraftKey } from "@/lib/access/customer";
import { currentLanguage } from "@/lib/access/language";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { keptComplaintSchema } from "@/lib/inputs/kept-complaint";
import { takeInComplaint } from "@/lib/operations/take-in-complaint";

/** Far more than all screens hold. */
const MOST_BYTES = 400_000;

/** A complaint that a device kept while there was no signal. Not an action: the page that sends it may be from an earlier build. */
export async function POST(request: Request) {
  if (!isOwnOrigin(request.headers.get("origin"))) return Response.json({ state: "refused" }, { status: 403 });
  const sent = keptComplaintSchema.safeParse(await readJson(request));
  if (!sent.success) return Response.json({ state: "refused" }, { status: 400 });
  const taken = await takeInComplaint(sent.data, await currentIntakeCustomer(), await callerAddress(), await currentLanguage());
  if (!taken.ok) return Response.json({ state: taken.reason }, { status: 409 });
  if (taken.isFiled) {
    await keepClaimKey(taken.reference, taken.key);
    return Response.json({ state: "filed", reference: taken.reference });
  }
  if (taken.draftKey !== null) await keepDraftKey(taken.draftKey);
  return Response.json({ state: "open", reference: taken.reference, goTo: `/intake/${taken.goTo ?? "review"}` });
}

async function readJson(request: Request): Promise<unknown> {
  if (Number(request.headers.get("content-length") ?? Number.POSITIVE_INFINITY) > MOST_BYTES) return null;
  try {
    return await request.json();
  } catch {
    return null;
  }
}
