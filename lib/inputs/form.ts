/** The fields of a form as typed, to fill it in again; files are left out, and what the framework posts beside them. */
export function stringsOf(form: FormData): Record<string, string> {
  return Object.fromEntries([...form].flatMap(([name, value]) => (typeof value === "string" && !name.startsWith("$") ? [[name, value]] : [])));
}
