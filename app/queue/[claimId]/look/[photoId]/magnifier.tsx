"use client";

import { type MouseEvent, type PointerEvent, useActionState, useEffect, useRef, useState } from "react";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";
import { LONGEST } from "@/lib/domain/intake/fields";
import { KeyHint } from "../../../keys";
import css from "./look.module.css";

interface Props {
  src: string;
  alt: string;
  width: number;
  height: number;
  marks: readonly { id: string; number: number; x: number; y: number; word: string }[];
  /** Null for whoever may only look. */
  action: ((before: DeskFormState, form: FormData) => Promise<DeskFormState>) | null;
}

const MOST = 8;
const STEP = 1.25;
/** A finger that moved further than this, in points, did not mean to touch a place. */
const STILL = 6;

/**
 * A photo to look into: nearer by wheel, two fingers, + and - or buttons; moved as anything that scrolls.
 * A touch or click says where the next mark goes; so do two numbers. Without script it is the picture with its marks.
 */
export function Magnifier({ src, alt, width, height, marks, action }: Props) {
  const [zoom, setZoom] = useState(1);
  const [place, setPlace] = useState<{ x: number; y: number } | null>(null);
  const frame = useRef<HTMLElement>(null);
  /** The share of the picture that stays where it is while the zoom changes, and where in the frame. */
  const held = useRef<{ x: number; y: number; left: number; top: number } | null>(null);
  const fingers = useRef(new Map<number, { x: number; y: number }>());
  const pressed = useRef<{ x: number; y: number; moved: boolean } | null>(null);

  const nearer = (factor: number, at?: { clientX: number; clientY: number }) => {
    const box = frame.current?.getBoundingClientRect();
    if (!frame.current || !box) return;
    const left = at ? at.clientX - box.left : box.width / 2;
    const top = at ? at.clientY - box.top : box.height / 2;
    const { scrollLeft, scrollTop, scrollWidth, scrollHeight } = frame.current;
    held.current = { x: (scrollLeft + left) / scrollWidth, y: (scrollTop + top) / scrollHeight, left, top };
    setZoom((before) => Math.min(MOST, Math.max(1, before * factor)));
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: the frame is scrolled once the picture has its new size.
  useEffect(() => {
    const point = held.current;
    if (!frame.current || !point) return;
    frame.current.scrollLeft = point.x * frame.current.scrollWidth - point.left;
    frame.current.scrollTop = point.y * frame.current.scrollHeight - point.top;
  }, [zoom]);

  // React's own wheel listener is passive and could not keep the page from scrolling along.
  useEffect(() => {
    const box = frame.current;
    const turn = (event: WheelEvent) => {
      event.preventDefault();
      nearer(event.deltaY < 0 ? STEP : 1 / STEP, event);
    };
    box?.addEventListener("wheel", turn, { passive: false });
    return () => box?.removeEventListener("wheel", turn);
  });

  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const box = frame.current;
      if (!box || event.ctrlKey || event.metaKey || event.altKey || !(event.target instanceof HTMLElement) || event.target.closest("input, select, textarea")) return;
      const isInside = box.contains(event.target);
      const acts: Readonly<Record<string, () => void>> = {
        "+": () => nearer(STEP),
        "=": () => nearer(STEP),
        "-": () => nearer(1 / STEP),
        "0": () => setZoom(1),
      };
      const act = acts[event.key];
      // Single keys can be switched off, but never in what has the focus (WCAG 2.1.4).
      if (!act || (!isInside && document.documentElement.dataset.keys !== "on")) return;
      event.preventDefault();
      act();
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  });

  const down = (event: PointerEvent) => {
    fingers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
    pressed.current = { x: event.clientX, y: event.clientY, moved: fingers.current.size > 1 };
  };
  const move = (event: PointerEvent) => {
    const before = fingers.current.get(event.pointerId);
    if (!before || !frame.current) return;
    const others = [...fingers.current].filter(([id]) => id !== event.pointerId).map(([, finger]) => finger);
    const here = { x: event.clientX, y: event.clientY };
    fingers.current.set(event.pointerId, here);
    const [other] = others;
    if (other) {
      const apart = (finger: { x: number; y: number }) => Math.hypot(finger.x - other.x, finger.y - other.y);
      if (apart(before) > 0) nearer(apart(here) / apart(before), { clientX: (here.x + other.x) / 2, clientY: (here.y + other.y) / 2 });
      return;
    }
    // A finger scrolls the frame by itself.
    if (event.pointerType !== "mouse") return;
    if (pressed.current && Math.hypot(here.x - pressed.current.x, here.y - pressed.current.y) > STILL) pressed.current.moved = true;
    if (pressed.current?.moved) frame.current.scrollBy(before.x - here.x, before.y - here.y);
  };
  const up = (event: PointerEvent) => void fingers.current.delete(event.pointerId);

  const point = (event: MouseEvent<HTMLElement>) => {
    if (!action || pressed.current?.moved) return;
    const box = event.currentTarget.getBoundingClientRect();
    setPlace({ x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height });
    document.getElementById("word")?.focus();
  };

  const picture = { width, height, zoom };
  const numbered = marks.map(({ number, word }) => `${number} ${word}`).join("; ");
  return (
    <>
      <div className={css.magnifier}>
        <div className={`${css.tools} no-print`}>
          <button type="button" className="button tight plain" onClick={() => nearer(STEP)}>
            Nearer&nbsp;
            <KeyHint sign="+" />
          </button>
          <button type="button" className="button tight plain" onClick={() => nearer(1 / STEP)}>
            Further&nbsp;
            <KeyHint sign="-" />
          </button>
          <button type="button" className="button tight plain" onClick={() => setZoom(1)}>
            Whole&nbsp;
            <KeyHint sign="0" />
          </button>
          <a className="small" href={src}>
            The picture alone
          </a>
          <span className="small soft num" role="status">
            {Math.round(zoom * 100)} %
          </span>
        </div>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by key */}
        <section ref={frame} className={css.frame} tabIndex={0} aria-label="The photo; plus and minus bring it nearer, arrows move it" onPointerDown={down} onPointerMove={move} onPointerUp={up} onPointerCancel={up} onPointerLeave={up}>
          {/* The same place by key: the two numbers of the form. */}
          {/* biome-ignore lint/a11y/noStaticElementInteractions: see above */}
          {/* biome-ignore lint/a11y/useKeyWithClickEvents: see above */}
          <div className={css.picture} onClick={point} {...(zoom > 1 ? { style: { width: `${zoom * 100}%` } } : {})}>
            <img src={src} alt={alt} width={width} height={height} draggable={false} />
            <svg className={css.overlay} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={numbered ? `Marks: ${numbered}` : "No marks"}>
              {marks.map(({ id, number, x, y }) => (
                <Mark key={id} x={x} y={y} picture={picture} sign={String(number)} />
              ))}
              {place ? <Mark x={place.x} y={place.y} picture={picture} sign="+" /> : null}
            </svg>
          </div>
        </section>
      </div>
      {action ? <MarkForm action={action} place={place} /> : null}
    </>
  );
}

/** A balloon with a leader to the place it speaks of, which stays in sight; near an edge it turns inwards. */
function Mark({ x, y, picture, sign }: { x: number; y: number; picture: { width: number; height: number; zoom: number }; sign: string }) {
  const { width, height, zoom } = picture;
  const [right, down] = [x > 0.85 ? -1 : 1, y < 0.15 ? 1 : -1];
  return (
    <g transform={`translate(${x * width} ${y * height}) scale(${Math.min(width, height) / (440 * zoom)})`} className={css.mark}>
      <circle r="5" />
      <path d={`M${4 * right} ${4 * down}L${22 * right} ${22 * down}`} />
      <g transform={`translate(${34 * right} ${34 * down})`}>
        <circle r="17" />
        <text y="1">{sign}</text>
      </g>
    </g>
  );
}

function MarkForm({ action, place }: { action: NonNullable<Props["action"]>; place: { x: number; y: number } | null }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const typed = place ? { ...values, x: (place.x * 100).toFixed(1), y: (place.y * 100).toFixed(1) } : values;
  const number = (id: "x" | "y", label: string) => (
    <Field id={id} label={label} error={messages[id]}>
      <input {...describedBy(id, { error: messages[id] })} name={id} inputMode="decimal" autoComplete="off" defaultValue={typed[id]} key={typed[id]} />
    </Field>
  );
  return (
    <form action={send} noValidate className={`${css.form} no-print`}>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <p className="small soft">Touch the photo where the mark goes, or say it in per cent.</p>
      {number("x", "From the left, %")}
      {number("y", "From the top, %")}
      <Field id="word" label="A word on what is seen" error={messages.word}>
        <input {...describedBy("word", { error: messages.word })} name="word" maxLength={LONGEST.name} autoComplete="off" defaultValue={values.word} key={values.word} data-key="m" />
      </Field>
      <button type="submit" className="button tight" aria-disabled={isSending}>
        Mark it
      </button>
    </form>
  );
}
