import { randomUUID } from "node:crypto";
import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { PARCEL_CONDITION_NAMES, PARCEL_CONDITIONS, type Place } from "@/lib/domain/claims/custody";
import { PARCEL_REASON_NAMES } from "@/lib/domain/claims/parcels";
import { RETURN_STATE_NAMES } from "@/lib/domain/claims/stages";
import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import { isInDoubt, type ReturnedUnit } from "@/lib/operations/load-returns";
import { type LoadedScan, loadScanned, type ScannedThing } from "@/lib/operations/load-scanned";
import { closeParcelHere, correctSerialHere, handOverHere, matchParcelHere, receiveHere, takeInParcelHere } from "../actions";
import { CustodySteps } from "../custody-steps";
import { HandForm } from "../hand-form";
import { cameOfPairInWords, dayIn, nextAtBench, otherSerialInWords, pairInWords, wayInWords, whereInWords } from "../return-words";
import styles from "../returns.module.css";
import { saidInWords } from "../said";
import { ScanField } from "../scan-field";

export const metadata: Metadata = { title: "Scan" };

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

const SERIAL: IntakeField = { name: "serialSeen", kind: "text", label: "Serial on the unit", hint: "Left empty where it cannot be read.", longest: LONGEST.code, signs: "code", autoComplete: "off" };
const OTHER_SERIAL: IntakeField = { name: "otherSerialSeen", kind: "text", label: "Serial on the other unit of the pair", hint: "Left empty where one alone has come.", longest: LONGEST.code, signs: "code", autoComplete: "off" };
const serialFields = ({ pairUnit }: ReturnedUnit) => (pairUnit ? [SERIAL, OTHER_SERIAL] : [SERIAL]);
const CONDITION: IntakeField = { name: "condition", kind: "choice", label: "Condition (optional)", options: PARCEL_CONDITIONS.map((value) => ({ value, label: capital(PARCEL_CONDITION_NAMES[value]) })) };
const NOTE: IntakeField = { name: "note", kind: "text", label: "Seal, photo, what is odd (optional)", longest: LONGEST.words, lines: 2 };
const STRAY: readonly IntakeField[] = [
  { name: "holds", kind: "text", label: "What is in it", hint: "As you see it, and in what state.", longest: LONGEST.words, missing: "Say what is in it" },
  { name: "serial", kind: "text", label: "Serial on it (optional)", longest: LONGEST.code, autoComplete: "off" },
  { name: "sender", kind: "text", label: "Sender, as it stands on the parcel (optional)", longest: LONGEST.words, lines: 2, autoComplete: "off" },
];

export default async function ScanPage({ searchParams }: { searchParams: Promise<{ of?: string | string[]; said?: string | string[] }> }) {
  const actor = await requireStaff("/returns/scan");
  const { of, said } = await searchParams;
  const typed = typeof of === "string" ? of.slice(0, 400) : undefined;
  const loaded = typed === undefined ? null : await loadScanned(actor, typed);
  if (loaded && !loaded.ok) forbidden();
  const outcome = saidInWords(typeof said === "string" ? said : undefined);
  const scanned = loaded?.scanned;
  const open = scanned?.is === "here" ? { parcelId: scanned.parcelId, number: scanned.number, seen: scanned.steps.at(-1)?.number ?? 0 } : undefined;
  return (
    <DeskShell actor={actor} here="Returns">
      <p className={styles.back}>
        <Link href="/returns">All returns</Link>
      </p>
      {outcome ? (
        <p className={`${outcome.isRefused ? "error" : "note"} ${styles.said}`} role="status">
          {outcome.words}
        </p>
      ) : null}
      <h1>{scanned ? scannedInWords(scanned) : "Nothing is scanned yet"}</h1>
      <ScanField key={open ? `${open.number}:${open.seen}` : typed} open={open} />
      {loaded?.ok ? <Found loaded={loaded} /> : <FirstScan />}
    </DeskShell>
  );
}

/** What to do with a parcel, for whoever stands at the door for the first time. */
function FirstScan() {
  return (
    <section className={`sheet ${styles.hand}`}>
      <h2>A parcel has come</h2>
      <ol className={styles.order}>
        <li>Scan the square or the bars on its label. Whatever is scanned lands in the field above; nothing has to be touched.</li>
        <li>Read the serial off the unit. Leave it empty where it cannot be read.</li>
        <li>Scan the code of the place where you put it: bench, shelf or quarantine.</li>
      </ol>
      <p className={styles.ways}>
        <Link className="button plain" href="/returns/scan?of=">
          It has no number
        </Link>
      </p>
    </section>
  );
}

function scannedInWords(scanned: LoadedScan["scanned"]): string {
  switch (scanned.is) {
    case "awaited":
      return scanned.unit.state === "expired" ? `${scanned.unit.number} ran out, and is welcome all the same` : `${scanned.unit.number} is expected`;
    case "here":
      return `${scanned.number} ${whereInWords(scanned.at)}`;
    case "unknown":
      return scanned.typed === "" ? "A parcel without a number" : `No return has the number ${scanned.typed}`;
  }
}

function Found({ loaded }: { loaded: LoadedScan }) {
  const { scanned, timeZone } = loaded;
  if (scanned.is === "unknown")
    return (
      <div className={styles.sheets}>
        <section className={`sheet ${styles.hand}`}>
          <h2>Take it in to quarantine</h2>
          <p className="small soft">Nothing that comes is sent away. It gets a number of its own, and the desk finds out whose it is.</p>
          <HandForm action={takeInParcelHere} first={[...STRAY, CONDITION]} initial={{ serial: scanned.typed }} places={[{ code: "", label: "Take it in" }]}>
            <input type="hidden" name="id" value={randomUUID()} />
            <input type="hidden" name="reason" value="no_number" />
          </HandForm>
        </section>
        {scanned.expected.length > 0 ? (
          <section className={`sheet ${styles.hand}`}>
            <h2>A unit with this serial is expected</h2>
            <ul>
              {scanned.expected.map(({ number, reference }) => (
                <li key={number}>
                  <Link href={`/returns/scan?of=${number}`}>
                    {number}, claim {reference}
                  </Link>
                </li>
              ))}
            </ul>
          </section>
        ) : null}
      </div>
    );
  if (scanned.is === "awaited") return <Awaited unit={scanned.unit} door={scanned.door} timeZone={timeZone} />;
  return <Here thing={scanned} loaded={loaded} />;
}

function Awaited({ unit, door, timeZone }: { unit: ReturnedUnit; door: Place | null; timeZone: string }) {
  return (
    <div className={styles.sheets}>
      <section className={`sheet ${styles.hand}`}>
        <UnitBlock unit={unit} />
        <p>
          {unit.sentAt ? `On its way since ${dayIn(timeZone, unit.sentAt)} ${wayInWords(unit)}.` : "Nobody has said yet that it is on its way."} Due by {dayIn(timeZone, unit.expiresAt)}.
        </p>
        <HandForm action={receiveHere} first={serialFields(unit)} more={[CONDITION, NOTE]} places={[{ code: door?.code ?? "", label: "Take it in" }]}>
          <input type="hidden" name="returnId" value={unit.id} />
          <input type="hidden" name="number" value={unit.number} />
        </HandForm>
      </section>
      <section className={`sheet ${styles.hand}`}>
        <details className={styles.fold}>
          <summary>Something else is in the parcel</summary>
          <p className="small soft">It goes to quarantine under this return. The unit stays awaited.</p>
          <StrayForm number={unit.number} reason="wrong_part" />
        </details>
      </section>
    </div>
  );
}

function StrayForm({ number, reason }: { number: string; reason: "wrong_part" | "second_parcel" }) {
  return (
    <HandForm action={takeInParcelHere} first={STRAY} places={[{ code: "", label: "Put it in quarantine" }]} isAside>
      <input type="hidden" name="id" value={randomUUID()} />
      <input type="hidden" name="returnNumber" value={number} />
      <input type="hidden" name="reason" value={reason} />
    </HandForm>
  );
}

function Here({ thing, loaded: { mayInspect, mayDecide, timeZone } }: { thing: ScannedThing; loaded: LoadedScan }) {
  const { unit, stray, at, offers, places, steps, parcelId, number } = thing;
  const found: IntakeField = { name: "found", kind: "select", label: "It was somewhere else: I found it at (optional)", options: places.filter(({ code }) => code !== at?.code).map(({ code, name }) => ({ value: code, label: name })) };
  const isOnBench = at?.kind === "bench" && unit?.state === "on_the_bench";
  return (
    <div className={styles.sheets}>
      <div className={styles.column}>
        <section className={`sheet ${styles.hand}`}>
          {unit ? <UnitBlock unit={unit} /> : null}
          {stray ? (
            <TitleBlock
              facts={[
                { name: "Parcel", value: PARCEL_REASON_NAMES[stray.reason] },
                { name: "What is in it", value: stray.holds },
                { name: "Serial on it", value: stray.serial ?? "none read" },
                { name: "Sender", value: stray.sender || "not given" },
                ...(stray.claim ? [{ name: "Came for", value: <Link href={`/queue/${stray.claim.id}`}>{stray.claim.reference}</Link> }] : []),
                ...(stray.closing ? [{ name: "What becomes of it", value: stray.closing }] : []),
              ]}
            />
          ) : null}
          {unit && isInDoubt(unit) ? (
            <p className="error">
              {otherSerialInWords(unit)}.{" "}
              <Link href={`/queue/${unit.claimId}#return`}>The desk says whether it is the unit</Link>
            </p>
          ) : null}
          {isOnBench && mayInspect ? (
            <p className={styles.places}>
              <Link className={`button ${styles.big}`} href={nextAtBench(unit).path}>
                {nextAtBench(unit).words}
              </Link>
            </p>
          ) : null}
          <h2>Where does it go?</h2>
          {offers.length > 0 ? (
            <HandForm key={steps.length} action={handOverHere} more={[CONDITION, NOTE, found]} places={offers.map(({ code, name }) => ({ code, label: name }))}>
              <input type="hidden" name="parcelId" value={parcelId} />
              <input type="hidden" name="number" value={number} />
              <input type="hidden" name="seen" value={steps.at(-1)?.number ?? 0} />
            </HandForm>
          ) : (
            <p>There is no place for it to go. An administrator adds one under Places.</p>
          )}
        </section>
      </div>
      <div className={styles.column}>
        <section className={`sheet ${styles.hand}`}>
          <h2>Where it has been</h2>
          <CustodySteps steps={steps} timeZone={timeZone} />
        </section>
        {unit && (unit.state === "received" || unit.state === "on_the_bench") && isSerialOpen(unit) ? (
          <section className={`sheet ${styles.hand}`}>
            <h2>{unit.pairUnit && unit.serialSeen ? "The other unit of the pair has come too, or a serial was read wrong" : unit.serialSeen ? "The serial was read wrong" : "The serial can be read after all"}</h2>
            <HandForm action={correctSerialHere} first={serialFields(unit)} initial={{ serialSeen: unit.serialSeen ?? "", otherSerialSeen: unit.otherSerialSeen ?? "" }} places={[{ code: "", label: "Keep the serial" }]} isAside>
              <input type="hidden" name="returnId" value={unit.id} />
              <input type="hidden" name="number" value={unit.number} />
            </HandForm>
          </section>
        ) : null}
        {unit ? (
          <section className={`sheet ${styles.hand}`}>
            <details className={styles.fold}>
              <summary>A second parcel came under this number</summary>
              <StrayForm number={unit.number} reason="second_parcel" />
            </details>
          </section>
        ) : null}
        {stray && !stray.closing && mayDecide ? (
          <section className={`sheet ${styles.hand}`}>
            <h2>Whose is it?</h2>
            <HandForm
              action={matchParcelHere.bind(null, parcelId)}
              first={[{ name: "reference", kind: "text", label: "Reference of the claim, or return number", longest: LONGEST.code, missing: "Write it", autoComplete: "off" }]}
              places={[{ code: "", label: "It is the unit of this claim" }]}
            >
              <input type="hidden" name="number" value={number} />
            </HandForm>
            <h3>Or nobody&rsquo;s unit</h3>
            <HandForm
              action={closeParcelHere.bind(null, parcelId)}
              first={[{ name: "closing", kind: "text", label: "What becomes of it", hint: "Such as: sent back to the sender, who pays the way.", longest: LONGEST.words, lines: 2, missing: "Say what becomes of it" }]}
              places={[{ code: "", label: "Let it leave the house" }]}
              isAside
            >
              <input type="hidden" name="number" value={number} />
            </HandForm>
          </section>
        ) : null}
      </div>
    </div>
  );
}

/** Whether there is a serial to put right, or the other unit of a pair may still come. */
const isSerialOpen = ({ serialMatch, pairUnit, otherSerialSeen }: ReturnedUnit) => serialMatch !== "matches" || (pairUnit !== null && otherSerialSeen === null);

function UnitBlock({ unit }: { unit: ReturnedUnit }) {
  const pair = pairInWords(unit);
  const came = cameOfPairInWords(unit);
  return (
    <TitleBlock
      facts={[
        { name: "Return", value: `${unit.number}, ${RETURN_STATE_NAMES[unit.state]}` },
        { name: "Claim", value: <Link href={`/queue/${unit.claimId}`}>{unit.reference}</Link> },
        { name: "Kit", value: unit.kit ?? "not known" },
        { name: "Vehicle", value: unit.vehicle ?? "not known" },
        { name: "Serial expected", value: unit.serialExpected ?? "not known" },
        ...(pair ? [{ name: "Of a pair", value: pair }] : []),
        ...(unit.serialSeen ? [{ name: "Serial on the unit", value: unit.serialSeen }] : []),
        ...(came ? [{ name: "Has come", value: came }] : []),
      ]}
    />
  );
}
