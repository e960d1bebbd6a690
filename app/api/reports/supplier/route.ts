import { fileHeaders, plainAnswer } from "@/app/api/file-answer";
import { usualPeriod } from "@/app/reports/read-address";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { firstValues } from "@/lib/inputs/query";
import { supplierSummarySchema } from "@/lib/inputs/supplier-summary";
import { writeSupplierSummary, type WrittenSummary } from "@/lib/operations/supplier-summary";

/** The summary for a supplier as a PDF: 400 with a plain message where the form cannot be followed, 403 for another role, 404 for a stranger. */
export async function POST(request: Request): Promise<Response> {
  if (!isOwnOrigin(request.headers.get("origin"))) return plainAnswer(403, "This request came from another site.");
  const actor = await currentStaff();
  if (!actor) return plainAnswer(404, "Not found.");
  const form = await request.formData().catch(() => null);
  if (!form) return plainAnswer(400, "Send the form of the page.");
  const read = supplierSummarySchema.safeParse({ ...usualPeriod(), ...firstValues(stringsOf(form)), supplier: form.get("supplier") ?? "", ask: form.get("ask") ?? "", photos: form.getAll("photos") });
  if (!read.success) return plainAnswer(400, read.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`).join("\n"));
  const written = await writeSupplierSummary(actor, read.data);
  if (!written.ok) return plainAnswer(written.reason === "not-allowed" ? 403 : 400, refusedInWords(written));
  return new Response(new Uint8Array(written.pdf), { headers: fileHeaders(`${written.name}.pdf`, "application/pdf") });
}

function refusedInWords(refusal: Extract<WrittenSummary, { ok: false }>): string {
  switch (refusal.reason) {
    case "not-allowed":
      return "Your role may not write to a supplier.";
    case "too-wide":
      return "Choose a kit or a batch: a supplier is told of their own alone.";
    case "nothing-decided":
      return "No decided claim is behind this choice.";
    case "names-a-customer":
      return "What you wrote names a customer of these claims, or a reference, an order, a telephone number or an address of theirs. Take it out: nothing of that may go to a supplier.";
    case "unknown-photo":
      return "A photo that was chosen is not among those of these claims any more.";
    case "unknown":
      return `${refusal.field}: There is no such ${refusal.field}.`;
  }
}
