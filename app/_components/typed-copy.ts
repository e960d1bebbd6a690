/** A copy on the device of what is being typed, so that a lost signal or a closed tab loses nothing. */

const PAUSE_MS = 300;
let pausing: ReturnType<typeof setTimeout> | undefined;

const nameOf = (key: string) => `fit-or-fault.typed.${key}`;

/** Keeps what the form holds once the typing pauses. */
export function keepTyped(key: string, form: HTMLFormElement): void {
  clearTimeout(pausing);
  pausing = setTimeout(() => {
    const values = Object.fromEntries([...new FormData(form)].filter(([name, value]) => typeof value === "string" && !name.startsWith("$") && name !== "from"));
    attempt(() => localStorage.setItem(nameOf(key), JSON.stringify(values)));
  }, PAUSE_MS);
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
