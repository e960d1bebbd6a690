import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { COST_WORDS } from "@/app/queue/words";
import { CHECK_COSTS, type Edition, type FindingDefinition, type Observer } from "@/lib/domain/diagnosis/knowledge";
import { OIL_PATH_PARTS } from "@/lib/domain/diagnosis/oil-path";
import css from "../../../../knowledge.module.css";
import { WHO_LOOKS } from "../../../../words";
import { DraftEntry } from "../../../draft-entry";
import { ChoiceField, type DraftFields, FateField, GroundFields, NumberField, TextField } from "../../../fields";
import { readDraftAt } from "../../../read-draft";

export const metadata: Metadata = { title: "Finding of the next edition" };

/** Who looks at a finding that is new: bench findings come by file. */
const OF_A_NEW_ONE: readonly Observer[] = ["customer", "technician"];

export default async function DraftFindingPage({ params, searchParams }: { params: Promise<{ draftId: string; code: string }>; searchParams: Promise<{ said?: string; cause?: string }> }) {
  const [{ draftId, code }, { said, cause }] = await Promise.all([params, searchParams]);
  const draftAt = await readDraftAt(draftId);
  const { work, fields } = draftAt;
  const known = work.basis.findings.find((one) => one.code === code);
  const edited = work.edited.findings.find((one) => one.code === code);
  if (!known && !edited && code !== work.nextCodes.finding) notFound();
  const at = `findings.${code}`;
  return (
    <DraftEntry draftAt={draftAt} kind="finding" code={code} name={known?.name} said={said} choice={<LinkChoice edited={edited ?? known} edition={work.edited} />}>
      <div className={css.pair}>
        <TextField fields={fields} field={`${at}.name`} label="Name" />
        <TextField fields={fields} field={`${at}.question`} label="The question" rows={2} />
        <TextField fields={fields} field={`${at}.why`} label="Why it is asked" rows={2} />
        <TextField fields={fields} field={`${at}.how`} label="How to look" rows={2} />
      </div>
      <div className={css.figures}>
        <NumberField fields={fields} field={`${at}.minutes`} label="Minutes" />
        <ChoiceField fields={fields} field={`${at}.cost`} label="Cost" options={CHECK_COSTS.map((cost) => [cost, COST_WORDS[cost]])} />
        <ChoiceField fields={fields} field={`${at}.part`} label="Part" options={Object.entries(OIL_PATH_PARTS).map(([part, { name }]) => [part, name])} />
      </div>
      {known?.kind === "circumstance" ? <Shifts finding={known} fields={fields} edition={work.edited} /> : <Seen code={code} finding={edited ?? known} extra={cause} fields={fields} edition={work.edited} />}
    </DraftEntry>
  );
}

const nameOf = (edition: Edition, code: string) => edition.causes.find((cause) => cause.code === code)?.name ?? code;

/** Opens the fields of a link to one more cause; what is typed below and not kept yet stays on the device. */
function LinkChoice({ edited, edition }: { edited: FindingDefinition | undefined; edition: Edition }) {
  if (edited?.kind === "circumstance") return null;
  const linked = new Set(edited?.links.map(({ cause }) => cause));
  return (
    <form className={`${css.filter} no-print`}>
      <label>
        Let it speak for one more cause
        <select name="cause" defaultValue="">
          {edition.causes
            .filter(({ code }) => !linked.has(code))
            .map(({ code, name }) => (
              <option key={code} value={code}>
                {code} {name}
              </option>
            ))}
        </select>
      </label>
      <button type="submit" className="button tight plain">
        Show its fields
      </button>
    </form>
  );
}

function Seen({ code, finding, extra, fields, edition }: { code: string; finding: FindingDefinition | undefined; extra: string | undefined; fields: DraftFields; edition: Edition }) {
  const observers = finding?.observers ?? OF_A_NEW_ONE;
  const linked = finding && finding.kind !== "circumstance" ? finding.links.map(({ cause }) => cause) : [];
  const removed = Object.keys(fields.typed).flatMap((field) => (fields.typed[field] === "removed" && field.startsWith(`findings.${code}.links.`) ? [field.split(".")[3] ?? ""] : []));
  const asked = extra && edition.causes.some((cause) => cause.code === extra) ? [extra] : [];
  const causes = [...new Set([...asked, ...linked, ...removed])];
  const at = `findings.${code}`;
  return (
    <>
      <h2>How often it is seen</h2>
      <fieldset className={css.link}>
        <legend>With none of its causes there</legend>
        <div className={css.figures}>
          {observers.map((observer) => (
            <NumberField key={observer} fields={fields} field={`${at}.background.${observer}.value`} label={WHO_LOOKS[observer]} />
          ))}
          <GroundFields fields={fields} place={`${at}.background`} figure={`${at}.background.${observers[0]}.value`} />
        </div>
      </fieldset>
      {causes.map((cause) => {
        const link = `${at}.links.${cause}`;
        return (
          <fieldset key={cause} className={css.link}>
            <legend>
              With {cause} alone: {nameOf(edition, cause)}
            </legend>
            <div className={css.figures}>
              {observers.map((observer) => (
                <NumberField key={observer} fields={fields} field={`${link}.strength.${observer}.value`} label={WHO_LOOKS[observer]} />
              ))}
              <GroundFields fields={fields} place={`${link}.strength`} figure={`${link}.strength.${observers[0]}.value`} />
              {asked.includes(cause) ? null : <FateField fields={fields} field={`${link}.is`} fate="removed" label="This link" />}
            </div>
          </fieldset>
        );
      })}
      {finding?.kind === "measurement" ? <Limit at={at} fields={fields} /> : null}
    </>
  );
}

function Limit({ at, fields }: { at: string; fields: DraftFields }) {
  if (!fields.leaves.has(`${at}.limit.value`)) return null;
  return (
    <fieldset className={css.link}>
      <legend>The limit it is read against</legend>
      <div className={css.figures}>
        <NumberField fields={fields} field={`${at}.limit.value`} label="Limit" />
        <NumberField fields={fields} field={`${at}.limit.spread`} label="Spread" />
        <GroundFields fields={fields} place={`${at}.limit`} figure={`${at}.limit.value`} />
      </div>
    </fieldset>
  );
}

function Shifts({ finding, fields, edition }: { finding: Extract<FindingDefinition, { kind: "circumstance" }>; fields: DraftFields; edition: Edition }) {
  return (
    <>
      <h2>What each answer does to the odds</h2>
      {finding.shifts.map(({ option, cause }) => {
        const at = `findings.${finding.code}.shifts.${option}:${cause}.oddsRatio`;
        return (
          <fieldset key={option + cause} className={css.link}>
            <legend>
              {finding.options.find(({ value }) => value === option)?.label ?? option}: {cause} {nameOf(edition, cause)}
            </legend>
            <div className={css.figures}>
              <NumberField fields={fields} field={`${at}.value`} label="Odds times" />
              <GroundFields fields={fields} place={at} figure={`${at}.value`} />
            </div>
          </fieldset>
        );
      })}
    </>
  );
}
