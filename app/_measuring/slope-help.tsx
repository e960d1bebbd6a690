"use client";

import { useEffect, useRef, useState } from "react";
import { slopeFromTwoTilts, tiltOfPhone } from "@/lib/domain/intake/slope-from-phone";
import { fillIn } from "./fill-in";
import type { HelpProps } from "./help-props";
import css from "./measuring.module.css";

/** Safari asks before it tells how the phone lies. */
type AsksFirst = { requestPermission?: () => Promise<"granted" | "denied"> };

/** So many of the latest readings are averaged: about a second of them. */
const AVERAGED = 40;
const NONE_AFTER_MS = 2500;

const inDegrees = (value: number) => String(Math.round(value)).replace("-0", "0");

/** The slope by the phone's own level, laid along twice: turned end for end, what the phone is off by drops out. */
export default function SlopeHelp({ say, field, isUnsigned }: HelpProps) {
  const [state, setState] = useState<"off" | "on" | "refused" | "none">("off");
  const [tilt, setTilt] = useState<number | null>(null);
  const [kept, setKept] = useState<readonly number[]>([]);
  const readings = useRef<number[]>([]);

  useEffect(() => {
    if (state !== "on") return;
    const listen = ({ beta }: DeviceOrientationEvent) => {
      if (beta === null) return;
      readings.current = [...readings.current, tiltOfPhone(beta)].slice(-AVERAGED);
      setTilt(readings.current.reduce((sum, one) => sum + one, 0) / readings.current.length);
    };
    const giveUp = setTimeout(() => readings.current.length === 0 && setState("none"), NONE_AFTER_MS);
    addEventListener("deviceorientation", listen);
    return () => {
      clearTimeout(giveUp);
      removeEventListener("deviceorientation", listen);
    };
  }, [state]);

  async function start() {
    if (!("DeviceOrientationEvent" in window)) return setState("none");
    const asks = DeviceOrientationEvent as unknown as AsksFirst;
    const isAllowed = !asks.requestPermission || (await asks.requestPermission().catch(() => "denied")) === "granted";
    setState(isAllowed ? "on" : "refused");
  }

  function keep() {
    if (tilt !== null) setKept([...kept, tilt]);
    readings.current = [];
  }

  const [first, second] = kept;
  const slope = first === undefined || second === undefined ? null : slopeFromTwoTilts(first, second);
  const shown = slope === null ? null : inDegrees(isUnsigned ? Math.abs(slope) : slope);
  if (state === "none" || state === "refused") return <p role="status">{say(`measuring.slope.${state}`)}</p>;
  return (
    <div className={css.bench}>
      {state === "off" ? (
        <button type="button" className="button plain" onClick={start}>
          {say("measuring.slope.start")}
        </button>
      ) : (
        <>
          <p>{say(shown !== null ? "measuring.slope.done" : first === undefined ? "measuring.slope.first" : "measuring.slope.second")}</p>
          <svg className={css.level} viewBox="-140 -60 280 120" aria-hidden="true" focusable="false">
            <line x1="-130" x2="130" y1="0" y2="0" />
            <rect x="-70" y="-22" width="140" height="44" rx="6" transform={`rotate(${-(tilt ?? 0)})`} />
          </svg>
          <p className={css.result}>{shown !== null ? say("measuring.slope.result", { slope: shown }) : tilt === null ? "" : `${inDegrees(tilt)}\u00b0`}</p>
          {shown === null ? (
            <button type="button" className="button plain" onClick={keep} disabled={tilt === null}>
              {say("measuring.slope.keep")}
            </button>
          ) : (
            <div className="acts">
              <button type="button" className="button plain" onClick={(event) => fillIn(event.currentTarget, { [field]: shown })}>
                {say("measuring.use", { amount: `${shown}\u00b0` })}
              </button>
              <button type="button" className="button plain" onClick={() => setKept([])}>
                {say("measuring.slope.again")}
              </button>
            </div>
          )}
        </>
      )}
    </div>
  );
}
