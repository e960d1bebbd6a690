import { fileHeaders } from "@/app/api/file-answer";
import { currentCustomer } from "@/lib/access/customer";
import { makeMyLetterFile } from "@/lib/operations/load-letter";

/** The letter as a PDF, for the customer whose browser follows the claim. */
export async function GET(_request: Request, { params }: { params: Promise<{ reference: string }> }): Promise<Response> {
  const actor = await currentCustomer((await params).reference);
  const file = actor && (await makeMyLetterFile(actor));
  if (!file?.ok) return new Response(null, { status: 404 });
  return new Response(new Uint8Array(file.pdf), { headers: fileHeaders(file.name, "application/pdf") });
}
