import { z } from "zod";
import { fileHeaders } from "@/app/api/file-answer";
import { currentCustomer } from "@/lib/access/customer";
import { LABEL_PAPERS } from "@/lib/domain/claims/return-label";
import { makeMyLabelFile } from "@/lib/operations/return-label-file";

/** The label as a PDF, for the customer whose browser follows the claim. */
export async function GET(request: Request, { params }: { params: Promise<{ reference: string }> }): Promise<Response> {
  const actor = await currentCustomer((await params).reference);
  const paper = z.enum(LABEL_PAPERS).safeParse(new URL(request.url).searchParams.get("paper"));
  const file = actor && paper.success ? await makeMyLabelFile(actor, paper.data) : null;
  if (!file) return new Response(null, { status: 404 });
  return new Response(new Uint8Array(file.pdf), { headers: fileHeaders(`${file.number}.pdf`, "application/pdf") });
}
