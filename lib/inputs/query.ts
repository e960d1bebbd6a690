import { plain } from "./text";

/** Query parameters as Next gives them. */
export type QueryParameters = Readonly<Record<string, string | readonly string[] | undefined>>;

/** Each parameter once: an empty one counts as left out, of a repeated one the first counts. */
export function firstValues(query: QueryParameters): Readonly<Record<string, string>> {
  const values: Record<string, string> = {};
  for (const [name, value] of Object.entries(query)) {
    const first = plain((typeof value === "string" ? value : value?.[0]) ?? "").trim();
    if (first) values[name] = first;
  }
  return values;
}
