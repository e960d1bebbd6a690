/** 31 signs, a prime number, without 0, 1, I, L and O, which are misread. */
const SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
const LENGTH = 10;

/**
 * A claim's public number: nine random signs and a check character, as `K7MP-4Q2-HXW`. About 2^44 numbers, so it
 * cannot be guessed; it opens nothing by itself.
 *
 * The check is a weighted sum modulo the prime 31, which finds every single wrong sign and every swap of two
 * neighbours (the argument of ISO/IEC 7064 pure systems, from memory).
 *
 * @param randomBytes at least 64 bytes from a cryptographic source; bytes of 248 and above are passed over so that
 *   every sign is equally likely
 * @throws when the bytes do not yield nine signs
 */
export function makeReference(randomBytes: Uint8Array): string {
  const body = Array.from(randomBytes)
    .filter((byte) => byte < 248)
    .slice(0, LENGTH - 1)
    .map((byte) => SIGNS.charAt(byte % SIGNS.length))
    .join("");
  if (body.length < LENGTH - 1) throw new Error("makeReference needs more random bytes");
  return grouped(body + checkSign(body));
}

/**
 * What a person typed, as a reference, or null when a sign is wrong. Case, spaces and hyphens do not matter.
 *
 * @example parseReference("k7mp 4q2 hxw")
 */
export function parseReference(typed: string): string | null {
  const signs = typed.toUpperCase().replace(/[\s-]/g, "");
  if (signs.length !== LENGTH || [...signs].some((sign) => !SIGNS.includes(sign))) return null;
  const body = signs.slice(0, -1);
  return checkSign(body) === signs.slice(-1) ? grouped(signs) : null;
}

function checkSign(body: string): string {
  const sum = [...body].reduce((total, sign, index) => total + (index + 1) * SIGNS.indexOf(sign), 0);
  return SIGNS.charAt(sum % SIGNS.length);
}

function grouped(signs: string): string {
  return `${signs.slice(0, 4)}-${signs.slice(4, 7)}-${signs.slice(7)}`;
}
