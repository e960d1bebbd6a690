import { z } from "zod";
import { fileHeaders, plainAnswer } from "@/app/api/file-answer";
import { currentStaff } from "@/lib/access/staff";
import { makeLetterFile } from "@/lib/operations/load-letter";

/** The letter as a PDF, for whoever may see the customer. */
export async function GET(_request: Request, { params }: { params: Promise<{ claimId: string }> }): Promise<Response> {
  const actor = await currentStaff();
  const claimId = z.guid().safeParse((await params).claimId);
  if (!actor || !claimId.success) return plainAnswer(404, "Not found.");
  const file = await makeLetterFile(actor, claimId.data);
  if (!file.ok) return file.reason === "not-allowed" ? plainAnswer(403, "Your role may not see letters.") : plainAnswer(404, "Not found.");
  return new Response(new Uint8Array(file.pdf), { headers: fileHeaders(file.name, "application/pdf") });
}
