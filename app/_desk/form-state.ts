/** What a refused form of the desk comes back with: the words typed, and a message beside each field that is wrong. */
export interface DeskFormState {
  values: Readonly<Partial<Record<string, string>>>;
  messages: Readonly<Partial<Record<string, string>>>;
  /** What is wrong with the whole. */
  problem?: string;
}

export const UNTOUCHED: DeskFormState = { values: {}, messages: {} };
