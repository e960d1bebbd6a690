import Link from "next/link";
import { dayIn, SERIAL_WORDS } from "@/app/returns/return-words";
import type { StaffActor } from "@/lib/access/actors";
import { RETURN_STATE_NAMES } from "@/lib/domain/claims/stages";
import { loadReturnsOfClaim, type ReturnedUnit } from "@/lib/operations/load-returns";
import { AuthoriseForm } from "./authorise-form";
import { authoriseReturnHere } from "./return-actions";

/** The journey of the unit: where it is, what the bench wrote, and the next act for whoever may do it. */
export async function ReturnSection({ actor, claimId }: { actor: StaffActor; claimId: string }) {
  const loaded = await loadReturnsOfClaim(actor, claimId);
  if (!loaded.ok) return null;
  const { returns, inspections, mayAuthorise, mayInspect, returnWithinDays, timeZone, version } = loaded;
  if (returns.length === 0 && !mayAuthorise) return null;
  const form = <AuthoriseForm action={authoriseReturnHere.bind(null, claimId)} version={version} days={returnWithinDays} />;
  return (
    <section className="sheet" aria-labelledby="return-heading">
      <h2 id="return-heading">{returns.length === 0 ? "The unit has not been asked for" : "The unit"}</h2>
      {returns.map((unit) => (
        <div key={unit.id}>
          <p>
            <strong className="num">{unit.number}</strong> {RETURN_STATE_NAMES[unit.state]}
            {whereItIs(unit, timeZone)}
          </p>
          {unit.serialMatch === "differs" ? (
            <p className="error">
              {SERIAL_WORDS.differs}
              {unit.serialSeen ? `: ${unit.serialSeen} was read on the unit, ${unit.serialExpected} was expected` : ""}
            </p>
          ) : null}
          {inspections
            .filter(({ returnId }) => returnId === unit.id)
            .map(({ id, inspectedAt, inspectedBy, note, _count }) => (
              <p key={id}>
                Inspected by {inspectedBy.name} on {dayIn(timeZone, inspectedAt)}: {_count.findings === 1 ? "one finding" : `${_count.findings} findings`}.{note ? ` ${note}` : ""}
                {unit.disposition ? <span className="soft"> The unit: {unit.disposition}.</span> : null}
              </p>
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

function whereItIs({ receivedAt, expiresAt, isOverdue, state }: ReturnedUnit, timeZone: string): string {
  if (receivedAt) return `, here since ${dayIn(timeZone, receivedAt)}`;
  if (state === "expired") return `, did not come by ${dayIn(timeZone, expiresAt)}`;
  return isOverdue ? `, should have been here by ${dayIn(timeZone, expiresAt)}` : `, due by ${dayIn(timeZone, expiresAt)}`;
}
