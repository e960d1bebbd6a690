"use client";

import { lazy, Suspense, useMemo, useState } from "react";
import type { Language } from "@/lib/domain/claims/languages";
import { wayField } from "@/lib/domain/intake/roundabout-reading";
import { sayFrom } from "@/lib/domain/say";
import type { HelpProps } from "./help-props";
import css from "./measuring.module.css";

/** What can be helped with, and the script of each, which is fetched when it is opened. */
const HELPS = {
  bore: lazy(() => import("./bore-help")),
  fall: lazy(() => import("./fall-help")),
  slope: lazy(() => import("./slope-help")),
};
export type MeasuringKind = keyof typeof HELPS;

interface Props extends Omit<HelpProps, "say"> {
  kind: MeasuringKind;
  texts: Readonly<Record<string, string>>;
  language: Language;
}

/** Help to come by a number, folded away under its field. What to do stands there without script; the reckoning needs it. */
export function MeasuringHelp({ kind, texts, language, ...help }: Props) {
  const [isOpen, setOpen] = useState(false);
  const say = useMemo(() => sayFrom(texts, language), [texts, language]);
  const Help = HELPS[kind];
  return (
    <details className={css.help} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say(`measuring.${kind}.title`)}</summary>
      <p>{say(`measuring.${kind}.how`)}</p>
      {kind === "bore" ? (
        <noscript>
          <p className={css.tick}>
            <input type="checkbox" id={wayField(help.field)} name={wayField(help.field)} value="outside-usual-wall" />
            <label htmlFor={wayField(help.field)}>{say("measuring.bore.didSo")}</label>
          </p>
        </noscript>
      ) : null}
      {isOpen ? (
        <Suspense>
          <Help say={say} {...help} />
        </Suspense>
      ) : null}
    </details>
  );
}
