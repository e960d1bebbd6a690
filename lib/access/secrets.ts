import "server-only";
import { createHash, randomBytes } from "node:crypto";

/** A fresh unguessable key of 256 bits, safe in a URL and in a cookie. */
export function newSecret(): string {
  return randomBytes(32).toString("base64url");
}

/** The words of a mail without the keys in its links: whoever reads them later can open nothing. */
export function withoutKeys(words: string): string {
  return words.replace(/(?<=\?key=)[\w-]{43}/g, "removed");
}

/** What the database keeps of a secret: SHA-256, hexadecimal. A 256-bit random key needs no salt. */
export function hashSecret(secret: string): string {
  return createHash("sha256").update(secret).digest("hex");
}
