import * as z from "zod/mini";

/** Text of several lines, as `lineSchema`, but with its line breaks and tabs. */
export function linesSchema(longest: number, missing?: string, tooLong?: () => string) {
  return textSchema(longest, missing, plain, tooLong);
}

/**
 * Text of one line as somebody typed it: trimmed, without the control signs nobody can type, some of which the database
 * refuses. Longer than `longest` it is refused with the message `tooLong`, for staff in English, and when empty with the
 * message `missing`, where there is one.
 *
 * Example: "Ada\u0000 \nBrink" is read as "Ada  Brink".
 */
export function lineSchema(longest: number, missing?: string, tooLong?: () => string) {
  return textSchema(longest, missing, (typed) => plain(typed).replace(/[\n\t]/g, " "), tooLong);
}

function textSchema(longest: number, missing: string | undefined, read: (typed: string) => string, tooLong = () => `Use ${longest.toLocaleString("en")} characters or fewer. Yours is kept here for you to shorten`) {
  const text = z.string().check(z.overwrite(read), z.trim(), z.maxLength(longest, { error: tooLong }));
  return missing === undefined ? text : text.check(z.minLength(1, missing));
}

/** Text without control signs but line breaks and tabs. A text area posts its line breaks as two characters, which a browser counts as one. */
export function plain(typed: string): string {
  return typed.replaceAll("\r\n", "\n").replace(/[^\P{Cc}\n\t]/gu, "");
}
