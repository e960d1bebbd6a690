"use client";

import { type ReactNode, useEffect, useRef, useState } from "react";
import { keepTyped, readTyped } from "@/app/_components/typed-copy";
import { placeReading } from "@/lib/domain/claims/play-readings";
import { type IntakeField, storedNumber, unitField } from "@/lib/domain/intake/fields";
import { confirmField, unusualNumber } from "@/lib/domain/intake/unusual-number";
import { cannotTell } from "@/lib/inputs/bench-inspection";
import type { Gauge } from "@/lib/operations/load-inspection";
import { readingInWords } from "./bench-words";
import styles from "./inspection.module.css";
import { PlayScale } from "./play-scale";

const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0"] as const;

interface Props {
  field: IntakeField & { kind: "number" };
  gauge: Gauge | null;
  /** Where the gauge sits. */
  drawing: ReactNode;
  typed: Readonly<Partial<Record<string, string>>>;
  error: string | undefined;
  /** Names this step in the copy kept on the device. */
  copyKey: string;
}

/** A number from a gauge: big keys, the limits drawn with the reading on them, and a way to say that it cannot be told. */
export function GaugeField({ field, gauge, drawing, typed, error, copyKey }: Props) {
  const { name } = field;
  const [value, setValue] = useState(typed[name] ?? "");
  const [unit, setUnit] = useState(typed[unitField(name)] || (field.units[0]?.value ?? ""));
  const [isTicked, setTicked] = useState(typed[cannotTell(name)] === "yes");
  const [hasPad, setPad] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    setPad(true);
    const copy = readTyped(copyKey);
    if (copy[name]) setValue(copy[name]);
    const copiedUnit = copy[unitField(name)];
    if (copiedUnit) setUnit(copiedUnit);
    if (copy[cannotTell(name)]) setTicked(true);
  }, [copyKey, name]);
  // The keys of the pad are no typing that a form hears of.
  useEffect(() => {
    if (value !== (typed[name] ?? "") && input.current?.form) keepTyped(copyKey, input.current.form);
  }, [value, typed, name, copyKey]);
  const measured = isTicked ? null : storedNumber(field, value, unit);
  const spread = measured === null || !gauge ? 0 : Math.hypot(gauge.accuracy.absolute, gauge.accuracy.share * measured);
  const unusual = unusualNumber(field, typed);
  const change = (next: string) => {
    setValue(next);
    if (next !== "") setTicked(false);
  };
  return (
    <fieldset className={styles.question} {...(error ? { "aria-describedby": `${name}-error` } : {})}>
      <legend>{field.label}</legend>
      {field.how ? <p className="small soft">{field.how}</p> : null}
      {error ? (
        <span className="error" id={`${name}-error`}>
          {error}
        </span>
      ) : null}
      <div className={styles.gauge}>
        <div>
          {drawing}
          <span className={styles.measure}>
            <input
              ref={input}
              id={name}
              name={name}
              value={value}
              onChange={(event) => change(event.target.value)}
              aria-label={field.label}
              inputMode={hasPad ? "none" : "decimal"}
              autoComplete="off"
              {...(error ? { "aria-invalid": true as const, "aria-describedby": `${name}-error` } : {})}
            />
            {field.units.length > 1 ? (
              <select name={unitField(name)} value={unit} onChange={(event) => setUnit(event.target.value)} aria-label={`Unit of: ${field.label}`}>
                {field.units.map((known) => (
                  <option key={known.value} value={known.value}>
                    {known.label}
                  </option>
                ))}
              </select>
            ) : (
              <span className="num">{field.units[0]?.label}</span>
            )}
          </span>
          {unusual?.isPossible ? (
            <label className={styles.tick}>
              <input type="checkbox" name={confirmField(name)} value={unusual.typed} defaultChecked={unusual.isConfirmed} />
              <span>Yes, it is {unusual.typed}</span>
            </label>
          ) : null}
          <label className={styles.tick}>
            <input type="checkbox" name={cannotTell(name)} value="yes" checked={isTicked} onChange={(event) => setTicked(event.target.checked)} />
            <span>Cannot tell</span>
          </label>
        </div>
        <fieldset className={styles.pad} aria-label={`Keys for: ${field.label}`} hidden={!hasPad}>
          {KEYS.map((key) => (
            <button key={key} type="button" onClick={() => change(value + key)}>
              {key}
            </button>
          ))}
          <button type="button" aria-label="Take the last figure back" onClick={() => change(value.slice(0, -1))}>
            &#x232B;
          </button>
        </fieldset>
      </div>
      {gauge ? (
        <div className={styles.against}>
          <PlayScale range={gauge.range} measuredMm={measured} spreadMm={spread} />
          <p role="status">{measured === null ? `Sound: ${readingRange(gauge)}` : readingInWords(measured, placeReading(measured, gauge.range, spread), spread, gauge)}</p>
        </div>
      ) : null}
    </fieldset>
  );
}

const readingRange = ({ range, of }: Gauge) => `${range.min > 0 ? `${range.min} to ` : "up to "}${Math.round(range.max * 1000) / 1000} mm, ${of}.`;
