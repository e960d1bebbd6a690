import Link from "next/link";
import { dayIn, otherSerialInWords, STANDING_WORDS } from "@/app/returns/return-words";
import { DISPOSITION_NAMES } from "@/lib/domain/claims/dispositions";
import { RETURN_STATE_NAMES } from "@/lib/domain/claims/stages";
import type { Inspection, ReturnedUnit, ReturnsOfClaim } from "@/lib/operations/load-returns";
import { AuthoriseForm } from "./authorise-form";
import { authoriseReturnHere } from "./return-actions";

/** The journey of the unit: where it is, what the bench wrote, and the next act for whoever may do it. */
export function ReturnSection({ claimId, loaded }: { claimId: string; loaded: ReturnsOfClaim }) {
  const { returns, inspections, mayAuthorise, mayInspect, returnWithinDays, timeZone, version } = loaded;
  if (returns.length === 0 && !mayAuthorise) return null;
  const form = <AuthoriseForm action={authoriseReturnHere.bind(null, claimId)} version={version} days={returnWithinDays} />;
  return (
    <section className="sheet" id="return" aria-labelledby="return-heading">
      <h2 id="return-heading">{returns.length === 0 ? "The unit has not been asked for" : "The unit"}</h2>
      {returns.map((unit) => (
        <div key={unit.id}>
          <p>
            <strong className="num">{unit.number}</strong> {RETURN_STATE_NAMES[unit.state]}
            {whereItIs(unit, timeZone)}
          </p>
          {unit.serialMatch === "differs" ? <p className="error">{otherSerialInWords(unit)}</p> : null}
          {inspections
            .filter(({ returnId }) => returnId === unit.id)
            .map(({ id, inspectedAt, inspectedBy, note, readings, findings, _count }) => (
              <div key={id}>
                <p>
                {inspectedAt ? `Inspected by ${inspectedBy.name} on ${dayIn(timeZone, inspectedAt)}` : `Being inspected by ${inspectedBy.name}`}: {_count.findings === 1 ? "one finding" : `${_count.findings} findings`}.{note ? ` ${note}` : ""}
                {unit.disposition ? <span className="soft"> The unit: {DISPOSITION_NAMES[unit.disposition.kind]}.</span> : null}
                </p>
                <Readings readings={readings} isMeasured={findings.length > 0} />
              </div>
            ))}
        </div>
      ))}
      {mayInspect ? (
        <p>
          <Link className="button tight" href={`/queue/${claimId}/bench-inspection`}>
            Inspect the unit
          </Link>
        </p>
      ) : null}
      {mayAuthorise && returns.length === 0 ? form : null}
      {mayAuthorise && returns.length > 0 ? (
        <details>
          <summary>Ask for the unit again</summary>
          {form}
        </details>
      ) : null}
    </section>
  );
}

/** What was measured, against the limits of the unit's own model. */
function Readings({ readings, isMeasured }: { readings: Inspection["readings"]; isMeasured: boolean }) {
  if (!readings) return isMeasured ? <p className="small soft">The model is not known, so what was measured cannot be held against its own limits.</p> : null;
  if (readings.length === 0) return null;
  return (
    <ul>
      {readings.map(({ name, measured, limit, standing }) => (
        <li key={name}>
          <span className="num">{measured} mm</span> {name}: {standing === "within" ? STANDING_WORDS.within : <strong>{STANDING_WORDS[standing]}</strong>}, {limit}
        </li>
      ))}
    </ul>
  );
}

function whereItIs({ receivedAt, expiresAt, isOverdue, state }: ReturnedUnit, timeZone: string): string {
  if (receivedAt) return `, here since ${dayIn(timeZone, receivedAt)}`;
  if (state === "expired") return `, did not come by ${dayIn(timeZone, expiresAt)}`;
  return isOverdue ? `, should have been here by ${dayIn(timeZone, expiresAt)}` : `, due by ${dayIn(timeZone, expiresAt)}`;
}
