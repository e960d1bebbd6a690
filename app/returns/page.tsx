import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import type { ReactNode } from "react";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { PARCEL_REASON_NAMES } from "@/lib/domain/claims/parcels";
import { may } from "@/lib/domain/claims/permissions";
import { scanPath } from "@/lib/domain/claims/scanned-number";
import { isInDoubt, loadReturns, type ReturnedUnit } from "@/lib/operations/load-returns";
import { cameOfPairInWords, dayIn, momentIn, nextAtBench, otherSerialInWords, pairInWords, returnsInWords, wayInWords } from "./return-words";
import styles from "./returns.module.css";
import { ScanField } from "./scan-field";

export const metadata: Metadata = { title: "Returns" };

export default async function ReturnsPage() {
  const actor = await requireStaff("/returns");
  const loaded = await loadReturns(actor);
  if (!loaded.ok) forbidden();
  const { here, coming, strays, mayInspect, timeZone } = loaded;
  const doubted = here.filter(isInDoubt);
  const sound = here.filter((unit) => !isInDoubt(unit));
  const onBench = sound.filter(({ state }) => state === "on_the_bench");
  const atDoor = sound.filter(({ state, parcel }) => state !== "on_the_bench" && parcel?.at?.kind === "door");
  const stored = sound.filter((unit) => !onBench.includes(unit) && !atDoor.includes(unit));
  return (
    <DeskShell actor={actor} here="Returns">
      <h1>{returnsInWords({ onBench: onBench.length, atDoor: atDoor.length, stored: stored.length, inDoubt: doubted.length, strays: strays.length, overdue: coming.overdue, coming: coming.total })}</h1>
      <ScanField />
      <p className={`${styles.ways} no-print`}>
        <Link className="button plain" href="/returns/scan?of=">
          Take in a parcel without a number
        </Link>
        <Link className="button plain" href="/returns/evidence">
          Evidence held
        </Link>
        {may(actor.role, "change the settings") ? (
          <Link className="button plain" href="/returns/places">
            Places
          </Link>
        ) : null}
      </p>
      <Units title="On the bench" units={onBench}>
        {(unit) => <Here unit={unit} timeZone={timeZone} mayInspect={mayInspect} />}
      </Units>
      <Units title="At the door" empty="Nothing waits at the door." units={atDoor}>
        {(unit) => <Here unit={unit} timeZone={timeZone} mayInspect={mayInspect} />}
      </Units>
      <Units title="Another serial than the claim&rsquo;s" units={doubted}>
        {(unit) => (
          <>
            <div className={styles.when}>
              <p className="error">{otherSerialInWords(unit)}</p>
              <Whereabouts unit={unit} timeZone={timeZone} />
            </div>
            <div className={`${styles.acts} ${styles.stacked}`}>
              <Link className="button plain" href={scanPath(unit.number)}>
                Correct or move<span className="visually-hidden"> {unit.number}</span>
              </Link>
              <Link className="button plain" href={`/queue/${unit.claimId}#return`}>
                Is it the unit?<span className="visually-hidden"> of {unit.number}</span>
              </Link>
            </div>
          </>
        )}
      </Units>
      {strays.length > 0 ? (
        <section className={`sheet ${styles.part}`}>
          <h2>Parcels that wait for a decision</h2>
          <ul className={styles.units}>
            {strays.map(({ id, number, reason, holds, serial, sender, arrivedAt, claim, handovers: [last] }) => (
              <li key={id} className={styles.unit}>
                <div>
                  <p className={styles.number}>
                    <strong className="num">{number}</strong> {reason ? PARCEL_REASON_NAMES[reason] : ""}
                  </p>
                  <span className="small">
                    {holds}
                    {serial ? `; serial ${serial}` : ""}
                    {sender ? `; from ${sender}` : ""}
                  </span>
                </div>
                <p className={styles.when}>
                  {last ? last.to.name : "nowhere"} since {momentIn(timeZone, arrivedAt)}
                  {claim ? (
                    <>
                      , came for{" "}
                      <Link href={`/queue/${claim.id}#return`}>
                        {claim.reference}
                      </Link>
                    </>
                  ) : null}
                </p>
                <div className={styles.acts}>
                  <Link className="button plain" href={scanPath(number)}>
                    Open<span className="visually-hidden"> {number}</span>
                  </Link>
                </div>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      <Units title="On a shelf or in quarantine" empty="No unit waits on a shelf." units={stored}>
        {(unit) => <Here unit={unit} timeZone={timeZone} mayInspect={mayInspect} />}
      </Units>
      <Units title="Expected" empty="No unit is on its way." units={coming.units} total={coming.total}>
        {(unit) => (
          <>
            <p className={styles.when}>
              {unit.daysOverdue === null ? null : <strong>{unit.daysOverdue === 1 ? "1 day overdue. " : `${unit.daysOverdue} days overdue. `}</strong>}
              {unit.sentAt && unit.state === "in_carriage" ? `On its way since ${dayIn(timeZone, unit.sentAt)} ${wayInWords(unit)}` : `Not sent yet, due by ${dayIn(timeZone, unit.expiresAt)}`}
            </p>
            <div className={styles.acts}>
              <Link className="button plain" href={scanPath(unit.number)}>
                It is here<span className="visually-hidden">: {unit.number}</span>
              </Link>
            </div>
          </>
        )}
      </Units>
    </DeskShell>
  );
}

/** @param total of which those given are the first; all of them where it is left out */
function Units<T extends ReturnedUnit>({ title, empty, units, total = units.length, children }: { title: string; empty?: string; units: readonly T[]; total?: number; children: (unit: T) => ReactNode }) {
  if (units.length === 0 && empty === undefined) return null;
  return (
    <section className={`sheet ${styles.part}`}>
      <h2>{title}</h2>
      {units.length === 0 ? <p className="soft">{empty}</p> : null}
      {units.length < total ? (
        <p className="soft">
          The {units.length} of {total} that are due first. The others are found by their number.
        </p>
      ) : null}
      <ul className={styles.units}>
        {units.map((unit) => (
          <li key={unit.id} className={styles.unit}>
            <UnitFacts unit={unit} />
            {children(unit)}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Here({ unit, timeZone, mayInspect }: { unit: ReturnedUnit; timeZone: string; mayInspect: boolean }) {
  const { bench } = unit;
  const next = nextAtBench(unit);
  return (
    <>
      <p className={styles.when}>
        {bench.inspector ? <strong className={styles.underWay}>{bench.inspector} is inspecting it</strong> : bench.isInspected ? <strong className={styles.underWay}>Inspected, not decided</strong> : null}
        <Whereabouts unit={unit} timeZone={timeZone} />
      </p>
      <div className={styles.acts}>
        <Link className="button plain" href={scanPath(unit.number)}>
          Hand over<span className="visually-hidden"> {unit.number}</span>
        </Link>
        {mayInspect ? (
          <Link className="button" href={next.path}>
            {next.words}
            <span className="visually-hidden"> {unit.number}</span>
          </Link>
        ) : null}
      </div>
    </>
  );
}

function Whereabouts({ unit: { parcel, receivedAt }, timeZone }: { unit: ReturnedUnit; timeZone: string }) {
  return (
    <>
      {parcel?.at ? `${parcel.at.name} since ${momentIn(timeZone, parcel.at.since)}` : "Nobody wrote down where"}
      {receivedAt && parcel?.at?.kind !== "door" ? <span className="small soft">; came on {dayIn(timeZone, receivedAt)}</span> : null}
    </>
  );
}

function UnitFacts({ unit }: { unit: ReturnedUnit }) {
  const pair = pairInWords(unit);
  const came = cameOfPairInWords(unit);
  return (
    <div>
      <p className={styles.number}>
        <strong className="num">{unit.number}</strong>
        <Link href={`/queue/${unit.claimId}`}>claim {unit.reference}</Link>
      </p>
      <span className="small">
        {unit.kit ?? "kit not known"}; {unit.vehicle ?? "vehicle not known"}
      </span>
      <br />
      <span className="small soft">
        serial {unit.serialExpected ?? "not known"}
        {pair ? `. ${pair}` : ""}
        {came ? `. ${came}` : ""}
      </span>
    </div>
  );
}
