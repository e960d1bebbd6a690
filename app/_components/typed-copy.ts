/** A copy on the device of what is being typed, so that a lost signal or a closed tab loses nothing. */

const PAUSE_MS = 300;
let pausing: ReturnType<typeof setTimeout> | undefined;
let notKeptYet: (() => void) | undefined;

const nameOf = (key: string) => `fit-or-fault.typed.${key}`;

/** Keeps what the form holds once the typing pauses, or the page is left before that. */
export function keepTyped(key: string, form: HTMLFormElement): void {
  notKeptYet = () => {
    const values = Object.fromEntries([...new FormData(form)].filter(([name, value]) => typeof value === "string" && !name.startsWith("$") && name !== "from"));
    attempt(() => localStorage.setItem(nameOf(key), JSON.stringify(values)));
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
  return attempt(() => JSON.parse(localStorage.getItem(nameOf(key)) ?? "{}") as Record<string, string>) ?? {};
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
