import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ATTRIBUTION_WORDS } from "@/app/queue/words";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { OIL_PATH_PARTS } from "@/lib/domain/diagnosis/oil-path";
import css from "../../../../knowledge.module.css";
import { DraftEntry } from "../../../draft-entry";
import { ChoiceField, GroundFields, NumberField, TextField } from "../../../fields";
import { readDraftAt } from "../../../read-draft";

export const metadata: Metadata = { title: "Cause of the next edition" };

export default async function DraftCausePage({ params, searchParams }: { params: Promise<{ draftId: string; code: string }>; searchParams: Promise<{ said?: string }> }) {
  const [{ draftId, code }, { said }] = await Promise.all([params, searchParams]);
  const draftAt = await readDraftAt(draftId);
  const { work, fields } = draftAt;
  const known = work.basis.causes.find((one) => one.code === code);
  const isAdded = !known && work.edited.causes.some((one) => one.code === code);
  // The next free code may be opened before anything is typed about it.
  if (!known && !isAdded && code !== work.nextCodes.cause) notFound();
  const at = `causes.${code}`;
  return (
    <DraftEntry draftAt={draftAt} kind="cause" code={code} name={known?.name} said={said}>
      <div className={css.pair}>
        <TextField fields={fields} field={`${at}.name`} label="Name for staff" />
        <TextField fields={fields} field={`${at}.plainName`} label="In words for a customer, as a clause" />
      </div>
      <TextField fields={fields} field={`${at}.advice`} label="What puts it right" rows={3} />
      <div className={css.figures}>
        <NumberField fields={fields} field={`${at}.base.value`} label="Fitted units that have it" />
        <GroundFields fields={fields} place={`${at}.base`} figure={`${at}.base.value`} />
      </div>
      <div className={css.figures}>
        <ChoiceField fields={fields} field={`${at}.attribution`} label="Lies with" options={ATTRIBUTIONS.map((attribution) => [attribution, ATTRIBUTION_WORDS[attribution]])} />
        <ChoiceField
          fields={fields}
          field={`${at}.originIsOpen`}
          label="May lie with the kit’s own parts"
          options={[
            ["no", "no"],
            ["yes", "yes"],
          ]}
        />
        <ChoiceField fields={fields} field={`${at}.part`} label="Part" options={Object.entries(OIL_PATH_PARTS).map(([part, { name }]) => [part, name])} />
      </div>
    </DraftEntry>
  );
}
