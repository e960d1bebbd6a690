"use client";

import { useEffect, useState } from "react";
import css from "./keys.module.css";

const KEPT = "desk-keys";

/** The key of an act, shown beside it while keys are on. */
export function KeyHint({ sign }: { sign: string }) {
  return (
    <span aria-hidden="true">
      <kbd className={css.hint}>{sign}</kbd>
    </span>
  );
}

/**
 * Single keys of the desk, and the switch that turns them off for those whose software types letters (WCAG 2.1.4). An
 * element says by `data-key` which key is its own: a link is followed; a field or a button only takes the focus, so that
 * no single key sends anything.
 */
export function Keys() {
  const [isOn, setOn] = useState(true);
  useEffect(() => setOn(localStorage.getItem(KEPT) !== "off"), []);
  useEffect(() => {
    document.documentElement.dataset.keys = isOn ? "on" : "off";
    if (!isOn) return;
    const act = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || event.key.length !== 1) return;
      if (event.target instanceof HTMLElement && event.target.closest("input, select, textarea, [contenteditable]")) return;
      const own = document.querySelector<HTMLElement>(`[data-key="${CSS.escape(event.key.toLowerCase())}"]`);
      if (!own) return;
      event.preventDefault();
      own.focus();
      if (own instanceof HTMLAnchorElement) own.click();
    };
    document.addEventListener("keydown", act);
    return () => document.removeEventListener("keydown", act);
  }, [isOn]);
  const turn = () => {
    localStorage.setItem(KEPT, isOn ? "off" : "on");
    setOn(!isOn);
  };
  return (
    <button type="button" className={`link-button small no-print ${css.switch}`} aria-pressed={isOn} onClick={turn}>
      Single keys are {isOn ? "on" : "off"}
    </button>
  );
}
