import type { SeveralRow } from "@/lib/operations/act-on-several";
import type { SeveralAct } from "@/lib/inputs/several-claims";

interface ActWords {
  /** In the choice below the list. */
  choice: string;
  /** On the button that does it, of so many. */
  button: (claims: string) => string;
  /** What happens to each, before it is done. */
  does: string;
  /** What has happened, of so many. */
  done: (claims: string) => string;
}

export const SEVERAL_WORDS: Readonly<Record<SeveralAct, ActWords>> = {
  take: { choice: "take them", button: (claims) => `Take ${claims}`, does: "comes into your hand", done: (claims) => `${claims} in your hand now` },
  hand_over: { choice: "hand them over", button: (claims) => `Hand over ${claims}`, does: "goes to the person you choose", done: (claims) => `${claims} handed over` },
  need_no_answer: { choice: "need no answer", button: (claims) => `Set ${claims} aside`, does: "what the customer wrote is marked as needing no answer", done: (claims) => `${claims} set aside` },
  remind: { choice: "remind of open checks", button: (claims) => `Remind of ${claims}`, does: "the customer is reminded by mail of the checks still open", done: (claims) => `${claims} reminded of` },
};

export const NOT_DONE_WORDS: Readonly<Record<NonNullable<SeveralRow["notDone"]>, string>> = {
  ended: "it has ended",
  "mine-already": "it is in your hand already",
  somebodys: "a colleague has it in hand; take it on its own page",
  "theirs-already": "it is there already",
  "nothing-to-answer": "nothing the customer wrote waits for an answer",
  "no-open-check": "no check is open",
  "no-mail": "there is no e-mail address; call",
  "changed-meanwhile": "somebody else changed it meanwhile",
  "reminded-today": "it was reminded of today",
};
