"use server";

import { forbidden, redirect } from "next/navigation";
import { z } from "zod";
import type { DeskFormState } from "@/app/_desk/form-state";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { requireStaff } from "@/lib/access/staff";
import { stringsOf } from "@/lib/inputs/form";
import { recordBenchInspection } from "@/lib/operations/record-bench-inspection";
import { donePath } from "../done";

export async function recordInspectionHere(claimIdGiven: string, _before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const claimId = z.uuid().parse(claimIdGiven);
  const actor = await requireStaff(`/queue/${claimId}/bench-inspection`);
  const recorded = await recordBenchInspection(actor, claimId, form);
  if (recorded.ok) redirect(donePath(claimId, "inspected"));
  if (recorded.reason === "not-allowed") forbidden();
  if (recorded.reason === "refused") return { values: stringsOf(form), messages: recorded.messages };
  return { values: stringsOf(form), messages: {}, problem: "This unit was inspected meanwhile, or it is not here. What you wrote is still below" };
}
