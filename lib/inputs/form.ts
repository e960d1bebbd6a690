/** The fields of a form as typed, to fill it in again; files are left out, and what the framework posts beside them. */
export function stringsOf(form: FormData): Record<string, string> {
  return Object.fromEntries([...form].flatMap(([name, value]) => (typeof value === "string" && !name.startsWith("$") ? [[name, value]] : [])));
}

/** Values as a form that a person would have sent. */
export function formOf(values: Readonly<Record<string, string>>): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(values)) form.set(name, value);
  return form;
}
