"use client";

import { useState } from "react";
import { boreFromOutside, outerFromRound, spreadOfBore, USUAL_WALL_MM } from "@/lib/domain/intake/bore-from-outside";
import { parseTypedNumber, unitField } from "@/lib/domain/intake/fields";
import { wayField } from "@/lib/domain/intake/roundabout-reading";
import { METRES_PER } from "@/lib/domain/physics/user-units";
import { inFigures } from "@/lib/domain/say";
import { fillIn } from "./fill-in";
import { LengthRow } from "./length-row";
import type { HelpProps } from "./help-props";
import css from "./measuring.module.css";

/** The bore of a hose from its outside: across it, or by a strip of paper round it, less the wall on both sides. */
export default function BoreHelp({ say, field, units }: HelpProps) {
  const unit = units === "imperial" ? "in" : "mm";
  const perUnit = METRES_PER[unit] / METRES_PER.mm;
  const [round, setRound] = useState("");
  const [across, setAcross] = useState("");
  const [wall, setWall] = useState("");
  const [way, setWay] = useState("");
  const shown = (mm: number) => inFigures(mm / perUnit, say.language);

  const read = (typed: string) => {
    const value = parseTypedNumber(typed);
    return value === null ? null : value * perUnit;
  };
  const [roundMm, acrossMm, wallMm] = [read(round), read(across), read(wall)];
  const outerMm = acrossMm ?? (roundMm === null ? null : outerFromRound(roundMm));
  const found = wallMm === null ? "outside-usual-wall" : "outside-known-wall";
  const boreMm = outerMm === null ? null : boreFromOutside(outerMm, wallMm ?? USUAL_WALL_MM);

  function use(button: Element, mm: number) {
    const number = shown(mm);
    setWay(`${found} ${number}`);
    fillIn(button, { [field]: number, [unitField(field)]: unit });
  }

  return (
    <div className={css.bench}>
      <LengthRow label={say("measuring.bore.round")} unit={unit} value={round} onChange={setRound} />
      <LengthRow label={say("measuring.bore.across")} unit={unit} value={across} onChange={setAcross} />
      <LengthRow label={say("measuring.bore.wall", { usual: `${shown(USUAL_WALL_MM)} ${unit}` })} unit={unit} value={wall} onChange={setWall} />
      <div role="status">
        {boreMm === null ? null : boreMm <= 0 ? (
          <p>{say("measuring.bore.tooThick")}</p>
        ) : (
          <p className={css.result}>{say("measuring.bore.result", { bore: `${shown(boreMm)} ${unit}`, off: `${shown(2 * spreadOfBore(found))} ${unit}` })}</p>
        )}
      </div>
      {boreMm !== null && boreMm > 0 ? (
        <button type="button" className="button plain" onClick={(event) => use(event.currentTarget, boreMm)}>
          {say("measuring.use", { amount: `${shown(boreMm)} ${unit}` })}
        </button>
      ) : null}
      <input type="hidden" name={wayField(field)} value={way} />
    </div>
  );
}
