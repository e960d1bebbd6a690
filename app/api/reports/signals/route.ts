import { fileAnswer, plainAnswer, readFormat } from "@/app/api/file-answer";
import { currentStaff } from "@/lib/access/staff";
import { readSignalsFilter } from "@/lib/inputs/signal";
import { exportSignals } from "@/lib/operations/export-signals";
import { parametersOf } from "../answer-with-file";

export async function GET(request: Request): Promise<Response> {
  const actor = await currentStaff();
  if (!actor) return plainAnswer(404, "Not found.");
  const format = readFormat(request);
  if (!format) return plainAnswer(400, "format: A file is csv or xlsx.");
  const filter = readSignalsFilter(parametersOf(request));
  const exported = await exportSignals(actor, filter);
  return exported.ok ? fileAnswer(filter.state === undefined ? "signals" : `signals-${filter.state}`, format, exported.table) : plainAnswer(403, "Your role may not see reports.");
}
