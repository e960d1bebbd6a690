/** What a refused screen comes back with: what was typed, and a message at each field that needs another look. */
export interface FormState {
  messages: Readonly<Record<string, string>>;
  /** What was typed, when the form came back. */
  values?: Readonly<Record<string, string>>;
  /** What is wrong with none of the fields. */
  problem?: string;
  /** Nothing was found, but the customer may go on. */
  offersToGoOn?: boolean;
  /** It is done, and the form is not needed any more. */
  sent?: boolean;
}

export const UNTOUCHED: FormState = { messages: {} };
