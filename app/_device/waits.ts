/** A note for the next page that the device keeps something we have not: without it nothing of this is loaded. */

const NOTE = "fit-or-fault.waits";
const EVENT = "fit-or-fault.begins-to-wait";

export function somethingWaits(): boolean {
  try {
    return localStorage.getItem(NOTE) !== null;
  } catch {
    return false;
  }
}

export function noteThatSomethingWaits(doesWait = true): void {
  try {
    if (doesWait) {
      localStorage.setItem(NOTE, "yes");
      dispatchEvent(new Event(EVENT));
    } else {
      localStorage.removeItem(NOTE);
    }
  } catch {
    // Where nothing may be noted, nothing is kept either.
  }
}

/** Calls back whenever something more begins to wait on this page; returns how to stop that. */
export function whenSomethingWaits(listener: () => void): () => void {
  addEventListener(EVENT, listener);
  return () => removeEventListener(EVENT, listener);
}
