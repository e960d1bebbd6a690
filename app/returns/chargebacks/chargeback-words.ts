const PROBLEMS: Readonly<Record<string, string>> = {
  "not-found": "This is not there any more",
  "changed-meanwhile": "Somebody changed this chargeback meanwhile. Look at it as it stands now",
  "not-legal-here": "This cannot be done with the chargeback as it stands now",
  "no-lines": "Nothing is charged: there is nothing to send",
  "verdict-gone": "A verdict in it no longer stands. Take its line out, then send the rest",
  "amounts-changed": "What is booked has changed since the lines were written. They are written anew: look at them, then send",
  "no-answer": "Write what the supplier accepts of one line at least",
};

/** The sentence for a reason; null for one that is none. */
export const problemInWords = (reason: string): string => PROBLEMS[reason] ?? "This could not be done";

export const knownProblem = (reason: string | undefined): string | null => (reason !== undefined && Object.hasOwn(PROBLEMS, reason) ? (PROBLEMS[reason] ?? null) : null);
