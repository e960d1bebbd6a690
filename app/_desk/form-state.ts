/** What a refused form of the desk comes back with: the words typed, and a message beside each field that is wrong. */
export interface DeskFormState {
  values: Readonly<Partial<Record<string, string>>>;
  messages: Readonly<Partial<Record<string, string>>>;
  /** What is wrong with the whole. */
  problem?: string;
}

export const UNTOUCHED: DeskFormState = { values: {}, messages: {} };

/** The fields of a form as typed; files are left out. */
export function typedValues(form: FormData): Record<string, string> {
  return Object.fromEntries([...form].flatMap(([name, value]) => (typeof value === "string" && !name.startsWith("$") ? [[name, value]] : [])));
}

/** The first message of each field of a refused schema. */
export function messagesOf(issues: readonly { path: readonly PropertyKey[]; message: string }[]): Record<string, string> {
  return Object.fromEntries([...issues].reverse().map(({ path, message }) => [path.map(String).join("."), message]));
}
