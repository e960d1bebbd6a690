import Form from "next/form";
import { Balloon } from "@/app/_components/balloon";
import { may } from "@/lib/domain/claims/permissions";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";
import type { Role } from "@/lib/domain/claims/roles";
import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import { staffFindingFields } from "@/lib/inputs/staff-finding";
import { toStaff } from "@/lib/messages/words";
import type { KnownFinding, StaffClaim } from "@/lib/operations/load-claim";
import type { inZone } from "../times";
import { OBSERVER_WORDS } from "../words";
import { ActForm } from "./act-form";
import { record } from "./actions";
import css from "./claim.module.css";

type Zone = ReturnType<typeof inZone>;

/** What was found, by whom and when, along the oil path. */
export function Findings({ claim, zone, role, toRecord, warnings }: { claim: StaffClaim; zone: Zone; role: Role; toRecord: string | undefined; warnings: readonly string[] }) {
  const inOrder = [...claim.findings].sort((a, b) => OIL_PATH_PARTS[a.part].balloon - OIL_PATH_PARTS[b.part].balloon);
  const isOpen = QUEUE_STAGES.some((stage) => stage === claim.stage);
  return (
    <section className="sheet" id="findings">
      <h2>What was found</h2>
      {warnings.map((warning) => (
        <p key={warning} className="error">
          {warning}
        </p>
      ))}
      {inOrder.length === 0 ? <p>Nothing yet.</p> : null}
      <ByWhom findings={inOrder} zone={zone} />
      {claim.overtaken.length > 0 ? (
        <>
          <h3>Said before in the other complaint, and otherwise since</h3>
          <ByWhom findings={claim.overtaken} zone={zone} />
        </>
      ) : null}
      {isOpen && may(role, "record a finding") ? <Record claim={claim} toRecord={toRecord} /> : null}
    </section>
  );
}

/** What one observer told at one time stands under one line that says who and when. */
function ByWhom({ findings, zone }: { findings: readonly KnownFinding[]; zone: Zone }) {
  const told = new Map<string, KnownFinding[]>();
  for (const finding of findings) {
    const { observer, by, from, observedAt } = finding;
    const words = `${OBSERVER_WORDS[observer]}${by ? `, kept by ${by}` : ""}${from ? `, in ${from}` : ""}, ${zone.time(observedAt)}`;
    told.set(words, [...(told.get(words) ?? []), finding]);
  }
  return [...told].map(([words, some]) => (
    <div key={words}>
      <p className={`small soft ${css.whom}`}>{capital(words)}</p>
      <ul className={css.findings}>
        {some.map(({ id, part, name, answer, note }) => (
          <li key={id}>
            <Balloon part={part} />
            <span>
              <strong>{name}:</strong> {answer}
              {note ? <span className="small soft">; {note}</span> : null}
            </span>
          </li>
        ))}
      </ul>
    </div>
  ));
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

function Record({ claim, toRecord }: { claim: StaffClaim; toRecord: string | undefined }) {
  const possible = claim.edition.findings.filter(({ observers }) => observers.includes("technician"));
  const definition = possible.find(({ code }) => code === toRecord);
  return (
    <details open={definition !== undefined} id="record" className="no-print">
      <summary>Record what a technician or the customer told you, or what you saw on a photo</summary>
      <Form className={css.line} action={`/queue/${claim.id}#record`} scroll={false}>
        <label htmlFor="record-finding">What was looked at</label>
        <select id="record-finding" name="record" defaultValue={definition?.code ?? ""}>
          {possible.map(({ code, name, part }) => (
            <option key={code} value={code}>
              {OIL_PATH_PARTS[part].balloon} {name}
            </option>
          ))}
        </select>
        <button type="submit" className="button tight plain">
          Choose
        </button>
      </Form>
      {definition ? <ActForm key={definition.code} className={css.compact ?? ""} action={record.bind(null, claim.id, definition.code)} fields={staffFindingFields(definition, toStaff)} label="Record it" /> : null}
    </details>
  );
}

/** Photos, small; each opens large. */
export function Photos({ claim }: { claim: { id: string; photos: readonly Pick<StaffClaim["photos"][number], "id" | "subject" | "takenBy">[] } }) {
  if (claim.photos.length === 0) return null;
  return (
    <section className="sheet">
      <h2>{claim.photos.length === 1 ? "One photo" : `${claim.photos.length} photos`}</h2>
      <ul className={css.photos}>
        {claim.photos.map(({ id, subject, takenBy }, index) => {
          const part = subject in OIL_PATH_PARTS ? OIL_PATH_PARTS[subject as OilPathPart].name : subject === "unit" ? "The unit" : null;
          return (
            <li key={id}>
              <a href={`/queue/${claim.id}/photos/${id}`}>
                <img src={`/queue/${claim.id}/photos/${id}?size=small`} alt={`${part ?? "Photo"}, ${index + 1} of ${claim.photos.length}, open it large`} loading="lazy" />
              </a>
              <span className="small soft">
                {part ? `${part}, ` : ""}
                {OBSERVER_WORDS[takenBy]}
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
