import { z } from "zod";

/** Hashing takes longer the longer the password is, so it has an end. */
const LONGEST_PASSWORD = 200;
const SHORTEST_PASSWORD = 15;

export const emailSchema = z
  .string()
  .max(254)
  .trim()
  .toLowerCase()
  .pipe(z.email("Write an e-mail address, such as name@example.com"));

export const signInSchema = z.object({
  email: emailSchema,
  password: z.string().min(1, "Write your password").max(LONGEST_PASSWORD, "The password is too long"),
});

/**
 * A new password: long, not one sign repeated, and not what anybody knows of the person. No rule asks for digits or
 * signs, which make passwords harder to keep in mind and little harder to guess (NIST SP 800-63B 3.1.1.2, from memory).
 */
export function newPasswordSchema(person: { email: string; name: string }) {
  return z
    .object({
      password: z
        .string()
        .min(SHORTEST_PASSWORD, `Use ${SHORTEST_PASSWORD} characters or more; a few words with spaces will do`)
        .max(LONGEST_PASSWORD, `Use at most ${LONGEST_PASSWORD} characters`)
        .refine((password) => new Set(password).size > 1, "One character repeated is too easy to guess")
        .refine((password) => !holdsAny(password, knownWords(person)), "Leave out your name and your e-mail address"),
      again: z.string(),
    })
    .refine(({ password, again }) => password === again, { path: ["again"], message: "The two are not the same" });
}

function knownWords({ email, name }: { email: string; name: string }): string[] {
  return [email, email.split("@")[0] ?? "", name, ...name.split(/\s+/)].filter((word) => word.length >= 4);
}

function holdsAny(password: string, words: readonly string[]): boolean {
  const lower = password.toLowerCase();
  return words.some((word) => lower.includes(word.toLowerCase()));
}

/** Where to go after signing in: only a path of our own, which no other site can be hidden in. */
export function ownPath(given: unknown): string | null {
  const path = z.string().max(500).safeParse(given);
  return path.success && /^\/(?![/\\])[^\\\p{Cc}]*$/u.test(path.data) ? path.data : null;
}
