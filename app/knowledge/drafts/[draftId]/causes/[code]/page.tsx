import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { ATTRIBUTION_WORDS } from "@/app/queue/words";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { OIL_PATH_PARTS } from "@/lib/domain/diagnosis/oil-path";
import { keepEditsHere } from "../../../../actions";
import css from "../../../../knowledge.module.css";
import { DraftForm } from "../../../draft-form";
import { ChoiceField, FateField, GroundFields, IssuesWithout, NumberField, TextField } from "../../../fields";
import { readDraftAt, SAID } from "../../../read-draft";

export const metadata: Metadata = { title: "Cause of the next edition" };

export default async function DraftCausePage({ params, searchParams }: { params: Promise<{ draftId: string; code: string }>; searchParams: Promise<{ said?: string }> }) {
  const [{ draftId, code }, { said }] = await Promise.all([params, searchParams]);
  const { actor, work, fields } = await readDraftAt(draftId);
  const known = work.basis.causes.find((one) => one.code === code);
  const isAdded = !known && work.edited.causes.some((one) => one.code === code);
  // The next free code may be opened before anything is typed about it.
  if (!known && !isAdded && code !== work.nextCodes.cause) notFound();
  const at = `causes.${code}`;
  return (
    <DeskShell actor={actor} here="Knowledge">
      <p className="small">
        <Link href={`/knowledge/drafts/${draftId}`}>Draft on edition {work.basis.number}</Link>
      </p>
      <h1>{known ? `${code} ${known.name}` : `${code}, a new cause`}</h1>
      {said && SAID[said] ? (
        <p className="note" role="status">
          {SAID[said]} {work.issues.some(({ path }) => path.startsWith(at)) ? "Something here needs another look before it can be proposed." : ""}
        </p>
      ) : null}
      <section className="sheet">
        <DraftForm action={keepEditsHere.bind(null, draftId, `/causes/${code}`)} copyKey={`${draftId}.${code}`} isKept={said === "kept"}>
          <IssuesWithout issues={work.issues} under={at} />
          {known ? <FateField fields={fields} field={`${at}.is`} fate="retired" label="In the next edition it" /> : <input type="hidden" name={`${at}.is`} value="added" />}
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
        </DraftForm>
      </section>
      <p className="small soft">What shows a cause is typed with the findings.</p>
    </DeskShell>
  );
}
