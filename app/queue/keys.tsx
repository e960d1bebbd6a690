"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import css from "./keys.module.css";

const KEPT = "desk-keys";
/** Where letters are typed or chosen by: no single key acts there, but Ctrl and Enter send the form. */
const TYPED_IN = "textarea, select, [contenteditable], input:not([type=checkbox], [type=radio], [type=submit], [type=button])";

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
 * no single key sends anything. In a list whose rows say `data-row`, J and K lead from row to row and X ticks one.
 */
export function Keys() {
  const [isOn, setOn] = useState(true);
  const [help, setHelp] = useState<readonly (readonly [string, string])[]>([]);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => setOn(localStorage.getItem(KEPT) !== "off"), []);
  const explain = useCallback(() => {
    setHelp(keysHere());
    dialog.current?.showModal();
  }, []);
  useEffect(() => {
    document.documentElement.dataset.keys = isOn ? "on" : "off";
    if (!isOn) return;
    const act = (event: KeyboardEvent) => {
      const { key, target } = event;
      if (event.altKey || dialog.current?.open) return;
      const field = target instanceof HTMLElement ? target.closest(TYPED_IN) : null;
      if (event.ctrlKey || event.metaKey) {
        if (key === "Enter") field?.closest("form")?.requestSubmit();
        return;
      }
      if (field) return;
      const row = target instanceof HTMLElement ? target.closest<HTMLElement>("[data-row]") : null;
      if (key.length !== 1 && !(row && (key === "ArrowDown" || key === "ArrowUp"))) return;
      const did = key === "?" ? explain() : (inList(key.toLowerCase(), row) ?? ownOf(key.toLowerCase()));
      if (did !== false) event.preventDefault();
    };
    document.addEventListener("keydown", act);
    return () => document.removeEventListener("keydown", act);
  }, [isOn, explain]);
  const turn = () => {
    localStorage.setItem(KEPT, isOn ? "off" : "on");
    setOn(!isOn);
  };
  return (
    <div className={`no-print ${css.switch}`}>
      <button type="button" className="link-button small" onClick={explain}>
        Keys <KeyHint sign="?" />
      </button>
      <dialog ref={dialog} className={css.help} aria-labelledby="keys-title">
        <h2 id="keys-title">Keys of this page</h2>
        <dl>
          {help.map(([sign, words]) => (
            <div key={sign + words}>
              <dt>
                <kbd className={css.hint}>{sign}</kbd>
              </dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
        <p className="small soft">A key follows a link, or leads to a field or a button; Enter then sends it. While you type in a field no key acts, but Ctrl and Enter together send its form.</p>
        <p className={css.acts}>
          <button type="button" className="button tight plain" aria-pressed={isOn} onClick={turn}>
            Single keys are {isOn ? "on" : "off"}
          </button>
          <button type="button" className="button tight" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </p>
      </dialog>
    </div>
  );
}

/** Leads to another row of a list, or ticks the one that has the focus; null where the key is none of a list's. */
function inList(key: string, row: HTMLElement | null): true | null {
  const rows = [...document.querySelectorAll<HTMLElement>("[data-row]")];
  const step = key === "j" || key === "arrowdown" ? 1 : key === "k" || key === "arrowup" ? -1 : 0;
  if (step !== 0 && rows.length > 0) {
    const at = row ? rows.indexOf(row) + step : 0;
    rows[Math.min(rows.length - 1, Math.max(0, at))]?.querySelector<HTMLElement>("a")?.focus();
    return true;
  }
  const tick = key === "x" ? row?.querySelector<HTMLElement>("input[type=checkbox]") : null;
  tick?.click();
  return tick ? true : null;
}

/** Follows or leads to what has this key; false where nothing has. */
function ownOf(key: string): boolean {
  const own = document.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`);
  own?.focus();
  if (own instanceof HTMLAnchorElement) own.click();
  return own !== null;
}

/** What has a key on this page, in the words that stand there. */
function keysHere(): [string, string][] {
  const own = [...document.querySelectorAll<HTMLElement>("[data-key]")].map((element): [string, string] => {
    const named = element instanceof HTMLInputElement || element instanceof HTMLSelectElement || element instanceof HTMLTextAreaElement ? element.labels?.[0] : element;
    const copy = named?.cloneNode(true) as HTMLElement | undefined;
    for (const beside of copy?.querySelectorAll("kbd, select, input, textarea") ?? []) beside.remove();
    return [(element.dataset.key ?? "").toUpperCase(), element.getAttribute("aria-label") ?? copy?.textContent?.trim() ?? ""];
  });
  const list: [string, string][] = document.querySelector("[data-row]")
    ? [
        ["J", "Next claim of the list"],
        ["K", "Claim before in the list"],
        ["Enter", "Open the claim"],
        ["X", "Tick the claim"],
      ]
    : [];
  return [...list, ...own, ["?", "This sheet"]];
}
