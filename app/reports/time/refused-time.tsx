import { forbidden } from "next/navigation";
import type { StaffActor } from "@/lib/access/actors";
import { loadReportChoices } from "@/lib/operations/load-report-choices";
import type { Parameters } from "../addresses";
import { TimeFilter, type TimeField } from "./time-filter";
import { TimeFrame, type TimePage } from "./time-frame";

/** The form as it was filled in, with what is wrong beside the fields. */
export async function RefusedTime({
  actor,
  here,
  action,
  period,
  fields,
  given,
  errors,
}: {
  actor: StaffActor;
  here: TimePage;
  action: string;
  period: string;
  fields: readonly TimeField[];
  given: Readonly<Partial<Record<string, string | number>>>;
  errors: Readonly<Partial<Record<string, string>>>;
}) {
  const choices = await loadReportChoices(actor);
  if (!choices.ok) forbidden();
  const wrong = Object.keys(errors).length;
  return (
    <TimeFrame here={here} filter={given as Parameters}>
      <h1>
        {here}: {wrong === 1 ? "one answer needs" : `${wrong} answers need`} another look
      </h1>
      <TimeFilter action={action} period={period} fields={fields} catalogue={choices.catalogue} causes={choices.causes} given={given} errors={errors} />
    </TimeFrame>
  );
}
