import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { ActForm } from "@/app/queue/[claimId]/act-form";
import { requireStaff } from "@/lib/access/staff";
import { PLACE_KIND_NAMES, PLACE_KINDS } from "@/lib/domain/claims/custody";
import { PLACE_SIGN } from "@/lib/domain/claims/scanned-number";
import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import { code128, QUIET_BARS, rectanglesOfBars, svgPath } from "@/lib/files/barcodes";
import { loadPlaces } from "@/lib/operations/change-places";
import styles from "../returns.module.css";
import { addPlaceHere, retirePlaceHere } from "./actions";

export const metadata: Metadata = { title: "Places" };

const NEW_PLACE: readonly IntakeField[] = [
  { name: "name", kind: "text", label: "What people call it", longest: LONGEST.name, missing: "Write what people call it", autoComplete: "off" },
  { name: "code", kind: "text", label: "Code in its barcode", hint: "Letters, figures and hyphens, as SHELF-4.", longest: LONGEST.code, missing: "Write a code", autoComplete: "off" },
  { name: "kind", kind: "select", label: "What it is for", options: PLACE_KINDS.map((value) => ({ value, label: PLACE_KIND_NAMES[value] })), missing: "Choose what it is for" },
  { name: "position", kind: "text", label: "Order", hint: "Of several of one kind the lowest is offered first.", longest: 3, missing: "Write a number", autoComplete: "off" },
];

export default async function PlacesPage() {
  const actor = await requireStaff("/returns/places");
  const loaded = await loadPlaces(actor);
  if (!loaded.ok) forbidden();
  const used = loaded.places.filter(({ retiredAt }) => retiredAt === null);
  const retired = loaded.places.filter(({ retiredAt }) => retiredAt !== null);
  return (
    <DeskShell actor={actor} here="Returns">
      <p className={`${styles.back} no-print`}>
        <Link href="/returns">All returns</Link>
      </p>
      <h1>{used.length} places a unit may lie at</h1>
      <p className="small soft no-print">Print this page and stick each barcode where it belongs: scan a unit, then the place it is taken to.</p>
      <section className="sheet">
        <ul className={styles.codes}>
          {used.map(({ code, name, kind }) => (
            <li key={code}>
              <h2>{name}</h2>
              <PlaceBars code={code} name={name} />
              <p>
                <span className="num">{code}</span> <span className="small soft">{PLACE_KIND_NAMES[kind]}</span>
              </p>
              <div className="no-print">
                <ActForm action={retirePlaceHere.bind(null, code, true)} label="Give it up" of={name} isPlain />
              </div>
            </li>
          ))}
        </ul>
      </section>
      <section className={`sheet no-print ${styles.part} ${styles.newPlace}`}>
        <h2>Another place</h2>
        <ActForm action={addPlaceHere} fields={NEW_PLACE} label="Add it" />
      </section>
      {retired.length > 0 ? (
        <section className={`sheet no-print ${styles.part}`}>
          <h2>Given up</h2>
          <ul className={styles.units}>
            {retired.map(({ code, name }) => (
              <li key={code} className={styles.unit}>
                {name}
                <span className="num">{code}</span>
                <ActForm action={retirePlaceHere.bind(null, code, false)} label="Use it again" of={name} isPlain />
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </DeskShell>
  );
}

/** The barcode of a place; dark on white on any screen, since scanners read screens too. */
function PlaceBars({ code, name }: { code: string; name: string }) {
  const bars = code128(`${PLACE_SIGN}${code}`);
  const width = bars.reduce((sum, bar) => sum + bar, 2 * QUIET_BARS);
  return (
    <svg className={styles.bars} viewBox={`${-QUIET_BARS} 0 ${width} 40`} preserveAspectRatio="none" role="img" aria-label={`Barcode of ${name}`}>
      <path d={svgPath(rectanglesOfBars(bars, 40))} fill="#000" shapeRendering="crispEdges" />
    </svg>
  );
}
