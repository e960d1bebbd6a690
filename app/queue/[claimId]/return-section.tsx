import Link from "next/link";
import { CustodySteps } from "@/app/returns/custody-steps";
import { cameOfPairInWords, dayIn, otherSerialInWords, pairInWords, STANDING_WORDS, wayInWords } from "@/app/returns/return-words";
import { DISPOSITION_NAMES } from "@/lib/domain/claims/dispositions";
import { PARCEL_REASON_NAMES } from "@/lib/domain/claims/parcels";
import { isAwaited, isHere } from "@/lib/domain/claims/return-lifecycle";
import { scanPath } from "@/lib/domain/claims/scanned-number";
import { RETURN_STATE_NAMES } from "@/lib/domain/claims/stages";
import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import { carriageFields } from "@/lib/inputs/send-in";
import { toStaff } from "@/lib/messages/words";
import type { Inspection, ReturnedUnit, ReturnsOfClaim } from "@/lib/operations/load-returns";
import { ActForm } from "./act-form";
import { AuthoriseForm } from "./authorise-form";
import { authoriseReturnHere, giveUpReturnHere, prolongReturnHere, recordCarriageHere, settleSerialHere } from "./return-actions";
import { SerialForm } from "./serial-form";

const DAYS: IntakeField = { name: "days", kind: "text", label: "Days from today", longest: LONGEST.number, missing: "Write a number of days", autoComplete: "off" };

/** The journey of the unit: where it is, what the bench wrote, and the next act for whoever may do it. */
export function ReturnSection({ claimId, loaded }: { claimId: string; loaded: ReturnsOfClaim }) {
  const { returns, inspections, custody, parcels, mayAuthorise, mayDecide, mayInspect, returnWithinDays, timeZone, version } = loaded;
  if (returns.length === 0 && parcels.length === 0 && !mayAuthorise) return null;
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
          {unit.pairUnit ? <p className="small">{[pairInWords(unit), cameOfPairInWords(unit)].filter(Boolean).join(". ")}</p> : null}
          <Doubt claimId={claimId} unit={unit} mayDecide={mayDecide} />
          {isAwaited(unit.state) || unit.state === "expired" ? <Awaited claimId={claimId} unit={unit} loaded={loaded} /> : null}
          {custody[unit.id] ? (
            <details>
              <summary>Where it has been{unit.parcel?.at ? `: ${unit.parcel.at.name}` : ""}</summary>
              <CustodySteps steps={custody[unit.id] ?? []} timeZone={timeZone} />
            </details>
          ) : null}
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
      {parcels.map(({ number, reason, holds, arrivedAt, closedAt, closing }) => (
        <p key={number} className={closedAt ? "soft" : "error"}>
          <Link href={scanPath(number)} className="num">
            {number}
          </Link>{" "}
          came on {dayIn(timeZone, arrivedAt)} and {PARCEL_REASON_NAMES[reason]}
          {holds ? `: ${holds}` : ""}
          {closing ? `. ${closing}` : ""}
        </p>
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

/** It came under another serial: what the bench finds does not count until somebody says what it is. */
function Doubt({ claimId, unit, mayDecide }: { claimId: string; unit: ReturnedUnit; mayDecide: boolean }) {
  if (unit.serialMatch !== "differs") return null;
  if (unit.sameUnitAt) return <p>{otherSerialInWords(unit)}. It was taken for the unit of this claim all the same{unit.sameUnitNote ? `: ${unit.sameUnitNote}` : ""}</p>;
  return (
    <>
      <p className="error">{otherSerialInWords(unit)}</p>
      {mayDecide && isHere(unit.state) ? <SerialForm action={settleSerialHere.bind(null, claimId)} returnId={unit.id} /> : null}
    </>
  );
}

/** A unit that has not come: who carries it, and what the desk may do about the waiting. */
function Awaited({ claimId, unit, loaded: { mayDecide, returnWithinDays, timeZone } }: { claimId: string; unit: ReturnedUnit; loaded: ReturnsOfClaim }) {
  const { sentAt, carrier, trackingNumber, remindedAt, state } = unit;
  return (
    <>
      {sentAt || remindedAt ? (
        <p className="small">
          {sentAt ? `On its way since ${dayIn(timeZone, sentAt)} ${wayInWords(unit)}. ` : ""}
          {remindedAt ? `Reminded on ${dayIn(timeZone, remindedAt)}.` : ""}
        </p>
      ) : null}
      {mayDecide ? (
        <details>
          <summary>On its way, more time, or given up</summary>
          <h3>The customer has sent it</h3>
          <ActForm action={recordCarriageHere.bind(null, claimId)} fields={carriageFields(toStaff)} initial={{ carrier: carrier ?? "", trackingNumber: trackingNumber ?? "" }} label="It is on its way" isPlain />
          <h3>The customer needs more time</h3>
          <ActForm action={prolongReturnHere.bind(null, claimId)} fields={[DAYS]} initial={{ days: String(returnWithinDays) }} label="Give more time" isPlain />
          {isAwaited(state) ? (
            <>
              <h3>It does not come</h3>
              <ActForm action={giveUpReturnHere.bind(null, claimId, unit.id)} label="Stop waiting for it" isPlain />
            </>
          ) : null}
        </details>
      ) : null}
    </>
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
