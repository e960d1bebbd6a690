import type { Screen } from "./answers";
import type { IntakeField } from "./fields";

/**
 * The fields of a screen as staff fill them in for a caller: an address is optional, since not every caller has one, but
 * without it there must be a telephone number.
 */
export function fieldsForCaller(screen: Screen, fields: readonly IntakeField[], typed: Readonly<Record<string, string | undefined>>): IntakeField[] {
  if (screen !== "contact") return [...fields];
  return fields.map((field) => {
    if (field.name === "email") {
      const { missing: _, ...optional } = field;
      return { ...optional, label: "E-mail address (optional)", hint: "Without one no mail goes out: read out the reference, and call." };
    }
    return field.name === "phone" ? { ...field, label: "Telephone", ...(typed.email ? {} : { missing: "Write a telephone number, or an e-mail address" }) } : field;
  });
}

const prefixOf = (screen: Screen) => `${screen}.`;

/** The same fields under names that tell the screens of one page apart. */
export function namedByScreen(screen: Screen, fields: readonly IntakeField[]): IntakeField[] {
  const prefix = prefixOf(screen);
  return fields.map((field) => ({ ...field, name: prefix + field.name, ...(field.shownWhen ? { shownWhen: { ...field.shownWhen, field: prefix + field.shownWhen.field } } : {}) }));
}

/** What was typed of one screen on such a page, under the screen's own names; null when the page did not ask for it. */
export function typedOfScreen(screen: Screen, typed: Readonly<Record<string, string>>): Record<string, string> | null {
  const prefix = prefixOf(screen);
  const own = Object.entries(typed).filter(([name]) => name.startsWith(prefix));
  return own.length === 0 && typed[`asked:${screen}`] === undefined ? null : Object.fromEntries(own.map(([name, value]) => [name.slice(prefix.length), value]));
}

/** Names under which a page says that it asked a screen: what nobody ticked is not posted at all. */
export const askedField = (screen: Screen) => `asked:${screen}`;
