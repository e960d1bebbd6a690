import { fileAnswer, plainAnswer, readFormat } from "@/app/api/file-answer";
import { currentStaff } from "@/lib/access/staff";
import { exportChargeback } from "@/lib/operations/export-chargeback";

/** The lines of a chargeback as CSV, or with `?format=xlsx` as a workbook. */
export async function GET(request: Request, { params }: { params: Promise<{ number: string }> }): Promise<Response> {
  const [{ number }, actor] = await Promise.all([params, currentStaff()]);
  if (!actor) return plainAnswer(401, "Sign in first.");
  const format = readFormat(request);
  if (!format) return plainAnswer(400, "The format is csv or xlsx.");
  const exported = /^[1-9]\d{0,8}$/.test(number) ? await exportChargeback(actor, Number(number)) : null;
  if (!exported?.ok) return exported?.reason === "not-allowed" ? plainAnswer(403, "This is for product managers and administrators.") : plainAnswer(404, "There is no such chargeback.");
  return fileAnswer(`chargeback-${number}`, format, exported.table);
}
