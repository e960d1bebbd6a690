"use client";

import { useId } from "react";
import css from "./measuring.module.css";

/** A length to reckon with. It has no name, so that it is not sent. */
export function LengthRow({ label, unit, value, onChange }: { label: string; unit: string; value: string; onChange: (value: string) => void }) {
  const id = useId();
  return (
    <div className={css.row}>
      <label htmlFor={id}>{label}</label>
      <input id={id} inputMode="decimal" autoComplete="off" value={value} onChange={(event) => onChange(event.target.value)} />
      <span className="num">{unit}</span>
    </div>
  );
}
