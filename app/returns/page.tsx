import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { loadReturns, type ReturnedUnit } from "@/lib/operations/load-returns";
import { correctSerialHere, receiveHere } from "./actions";
import { dayIn, otherSerialInWords } from "./return-words";
import styles from "./returns.module.css";

export const metadata: Metadata = { title: "Returns" };

const OUTCOMES: Readonly<Record<string, string>> = {
  matches: "Received. The serial is the one of the claim.",
  differs: "Received, but with another serial than the claim\u2019s. Ask at the desk before you inspect it.",
  "nothing-to-compare": "Received. There was no serial to compare.",
  "corrected-matches": "Corrected. The serial is the one of the claim.",
  "corrected-differs": "Corrected, and it is still another serial than the claim\u2019s. Ask at the desk before you inspect it.",
  "corrected-nothing-to-compare": "Corrected. There is no serial to compare.",
  "not-expected": "This unit was received already, or is not expected any more.",
  "not-found": "There is no such return.",
  "serial-too-long": "This is too long for a serial. Write it as it stands on the unit.",
};

export default async function ReturnsPage({ searchParams }: { searchParams: Promise<{ said?: string | string[] }> }) {
  const actor = await requireStaff("/returns");
  const loaded = await loadReturns(actor);
  if (!loaded.ok) forbidden();
  const { said } = await searchParams;
  const outcome = typeof said === "string" && Object.hasOwn(OUTCOMES, said) ? OUTCOMES[said] : undefined;
  const here = loaded.units.filter(({ receivedAt }) => receivedAt !== null);
  const coming = loaded.units.filter(({ receivedAt }) => receivedAt === null);
  return (
    <DeskShell actor={actor} here="Returns">
      <h1>{heading(here.length, coming.length)}</h1>
      {outcome ? (
        <p className={said === "differs" || said === "corrected-differs" ? "error" : "note"} role="status">
          {outcome}
        </p>
      ) : null}
      <section className={`sheet ${styles.part}`}>
        <h2>Here, to be inspected</h2>
        {here.length === 0 ? <p className="soft">No unit waits on the bench.</p> : null}
        <ul className={styles.units}>
          {here.map((unit) => (
            <li key={unit.id} className={styles.unit}>
              <UnitFacts unit={unit} />
              <div>
                <p className={styles.when}>
                  here since {unit.receivedAt ? dayIn(loaded.timeZone, unit.receivedAt) : ""}
                  {unit.serialMatch === "differs" ? <span className="error">{otherSerialInWords(unit)}</span> : null}
                </p>
                {unit.serialMatch === "matches" ? null : (
                  <details>
                    <summary className="small">
                      {unit.serialSeen ? "Correct" : "Add"} the serial<span className="visually-hidden"> of {unit.number}</span>
                    </summary>
                    <SerialForm action={correctSerialHere} unit={unit} label="Keep it" />
                  </details>
                )}
              </div>
              <Link className="button" href={`/queue/${unit.claimId}/bench-inspection`}>
                Inspect<span className="visually-hidden"> {unit.number}</span>
              </Link>
            </li>
          ))}
        </ul>
      </section>
      <section className={`sheet ${styles.part}`}>
        <h2>Expected</h2>
        {coming.length === 0 ? <p className="soft">No unit is on its way.</p> : null}
        <ul className={styles.units}>
          {coming.map((unit) => (
            <li key={unit.id} className={styles.unit}>
              <UnitFacts unit={unit} />
              <p className={styles.when}>
                {unit.isOverdue ? <strong>should have been here by </strong> : "due by "}
                {dayIn(loaded.timeZone, unit.expiresAt)}
              </p>
              <SerialForm action={receiveHere} unit={unit} label="It is here" />
            </li>
          ))}
        </ul>
      </section>
    </DeskShell>
  );
}

function SerialForm({ action, unit, label }: { action: (form: FormData) => Promise<void>; unit: ReturnedUnit; label: string }) {
  return (
    <form action={action} className={styles.receive}>
      <input type="hidden" name="returnId" value={unit.id} />
      <label htmlFor={`serial-${unit.id}`} className="visually-hidden">
        Serial on the unit of {unit.number}
      </label>
      <input id={`serial-${unit.id}`} name="serialSeen" defaultValue={unit.serialSeen ?? ""} placeholder="Serial on the unit" autoComplete="off" autoCapitalize="characters" spellCheck={false} />
      <button type="submit" className="button plain">
        {label}<span className="visually-hidden">: {unit.number}</span>
      </button>
    </form>
  );
}

function heading(here: number, coming: number): string {
  const onTheWay = coming === 0 ? "none is on its way" : coming === 1 ? "one is on its way" : `${coming} are on their way`;
  if (here === 0) return `No unit waits on the bench; ${onTheWay}`;
  return `${here === 1 ? "One unit waits" : `${here} units wait`} on the bench; ${onTheWay}`;
}

function UnitFacts({ unit }: { unit: ReturnedUnit }) {
  return (
    <div>
      <strong className="num">{unit.number}</strong>{" "}
      <Link href={`/queue/${unit.claimId}`} className="small">
        claim {unit.reference}
      </Link>
      <br />
      <span className="small">
        {unit.kit ?? "kit not known"}; {unit.vehicle ?? "vehicle not known"}
      </span>
      <br />
      <span className="small soft">serial {unit.serialExpected ?? "not known"}</span>
    </div>
  );
}
