import { parseReference } from "./reference";

const SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
const LENGTH = 10;

/**
 * References that a mistyped one may have meant: one sign read wrongly, or two neighbours swapped. The check character
 * leaves about one in 31 of them, few enough to look them up; none where more than that is wrong, or nothing is.
 *
 * Example: what is told over the phone as "K7MP 4Q2 HXV" was K7MP-4Q2-HXW, or one of a dozen others.
 */
export function nearReferences(typed: string): string[] {
  // A sign that no reference has, such as 0, was misread: any may stand there.
  const signs = typed.toUpperCase().replace(/[\s-]/g, "");
  if (signs.length !== LENGTH || !/^[0-9A-Z]+$/.test(signs) || parseReference(signs) !== null) return [];
  const near = new Set<string>();
  const keep = (changed: string) => {
    const reference = parseReference(changed);
    if (reference) near.add(reference);
  };
  for (let place = 0; place < LENGTH; place++) {
    for (const sign of SIGNS) keep(signs.slice(0, place) + sign + signs.slice(place + 1));
    if (place < LENGTH - 1) keep(signs.slice(0, place) + signs.charAt(place + 1) + signs.charAt(place) + signs.slice(place + 2));
  }
  return [...near];
}
