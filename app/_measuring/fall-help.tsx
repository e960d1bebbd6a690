"use client";

import { useState } from "react";
import { fallFromHeights } from "@/lib/domain/intake/fall-from-heights";
import { parseTypedNumber, unitField } from "@/lib/domain/intake/fields";
import { inFigures } from "@/lib/domain/say";
import { fillIn } from "./fill-in";
import { LengthRow } from "./length-row";
import type { HelpProps } from "./help-props";
import css from "./measuring.module.css";

/** The fall from two heights over one level. */
export default function FallHelp({ say, field, units }: HelpProps) {
  const unit = units === "imperial" ? "in" : "mm";
  const [outlet, setOutlet] = useState("");
  const [entry, setEntry] = useState("");
  const [from, to] = [parseTypedNumber(outlet), parseTypedNumber(entry)];
  const fall = from === null || to === null ? null : inFigures(fallFromHeights(from, to), say.language);
  return (
    <div className={css.bench}>
      <LengthRow label={say("measuring.fall.outlet")} unit={unit} value={outlet} onChange={setOutlet} />
      <LengthRow label={say("measuring.fall.entry")} unit={unit} value={entry} onChange={setEntry} />
      <div role="status">{fall === null ? null : <p className={css.result}>{say("measuring.fall.result", { fall: `${fall} ${unit}` })}</p>}</div>
      {fall === null ? null : (
        <button type="button" className="button plain" onClick={(event) => fillIn(event.currentTarget, { [field]: fall, [unitField(field)]: unit })}>
          {say("measuring.use", { amount: `${fall} ${unit}` })}
        </button>
      )}
    </div>
  );
}
