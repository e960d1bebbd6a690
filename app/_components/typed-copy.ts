import { DRAFT_DAYS } from "@/lib/domain/claims/key-days";

/** A copy on the device of what is being typed, so that a lost signal or a closed tab loses nothing. */

const PAUSE_MS = 300;
/** As long as a draft is kept with us. */
const KEPT_MS = DRAFT_DAYS * 86_400_000;

interface Copy {
  at: number;
  values: Record<string, string>;
}

let pausing: ReturnType<typeof setTimeout> | undefined;
let notKeptYet: (() => void) | undefined;

const PREFIX = "fit-or-fault.typed.";
const nameOf = (key: string) => `${PREFIX}${key}`;

/** Keeps what the form holds once the typing pauses, or the page is left before that. */
export function keepTyped(key: string, form: HTMLFormElement): void {
  notKeptYet = () => {
    const values = Object.fromEntries([...new FormData(form)].filter(([name, value]) => typeof value === "string" && !name.startsWith("$") && name !== "from"));
    forgetOldCopies();
    attempt(() => localStorage.setItem(nameOf(key), JSON.stringify({ at: Date.now(), values })));
  };
  clearTimeout(pausing);
  pausing = setTimeout(keepNow, PAUSE_MS);
  addEventListener("pagehide", keepNow);
}

function keepNow(): void {
  clearTimeout(pausing);
  notKeptYet?.();
  notKeptYet = undefined;
}

export function readTyped(key: string): Record<string, string> {
  return copyNamed(nameOf(key))?.values ?? {};
}

/** Null where there is none, or it is too old. */
function copyNamed(name: string): Copy | null {
  const copy = attempt(() => JSON.parse(localStorage.getItem(name) ?? "null") as Copy | null);
  return copy && Date.now() - copy.at < KEPT_MS ? copy : null;
}

/** What was typed and never sent is not kept on a device for good. */
function forgetOldCopies(): void {
  attempt(() => {
    for (const name of Object.keys(localStorage)) if (name.startsWith(PREFIX) && !copyNamed(name)) localStorage.removeItem(name);
  });
}

/** Puts the copy back into a form whose controls keep their own values. */
export function restoreTyped(key: string, form: HTMLFormElement): void {
  for (const [name, value] of Object.entries(readTyped(key))) {
    const control = form.elements.namedItem(name);
    if (control && "value" in control) control.value = value;
  }
}

/** Forgets the copy: the server has it. */
export function forgetTyped(key: string): void {
  clearTimeout(pausing);
  notKeptYet = undefined;
  attempt(() => localStorage.removeItem(nameOf(key)));
}

/** Storage may be full or forbidden; the form works without it. */
function attempt<T>(work: () => T): T | null {
  try {
    return work();
  } catch {
    return null;
  }
}
