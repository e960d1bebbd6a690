"use client";

import type { MouseEvent, ReactNode } from "react";
import css from "./intake.module.css";

const HALVES = [
  { value: "compressor", name: "Air side", choice: "place-1", className: css.tapCompressor },
  { value: "turbine", name: "Exhaust side", choice: "place-0", className: css.tapTurbine },
] as const;

/**
 * The drawing with two halves to tap. Each is a label of a choice in the list below, so that it works without script;
 * with it, tapping the second half as well chooses both.
 */
export function TapDrawing({ children }: { children: ReactNode }) {
  return (
    <div className={`sheet ${css.drawing}`}>
      {children}
      {HALVES.map(({ value, name, choice, className }) => (
        // The list below names the same choices; a name here would be read out twice.
        <label key={value} className={`${css.tap} ${className}`} htmlFor={choice} aria-hidden="true" onClick={(event) => tapBoth(event, value)}>
          <span className="visually-hidden">{name}</span>
        </label>
      ))}
    </div>
  );
}

function tapBoth(event: MouseEvent, tapped: "compressor" | "turbine") {
  const choice = (value: string) => document.querySelector<HTMLInputElement>(`input[name="place"][value="${value}"]`);
  const isOtherChosen = choice(tapped === "turbine" ? "compressor" : "turbine")?.checked;
  const both = choice("both");
  if (!both || !(isOtherChosen || both.checked)) return;
  event.preventDefault();
  // Tapping a marked half again takes its mark away.
  const next = both.checked ? choice(tapped === "turbine" ? "compressor" : "turbine") : both;
  next?.click();
}
