import "server-only";
import { hash, verify } from "@node-rs/argon2";
import { newSecret } from "./secrets";

/** Argon2id with 19 MiB, two passes, one lane: the least that the OWASP password storage cheat sheet advises (from memory). */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

export function hashPassword(password: string): Promise<string> {
  return hash(password.normalize("NFKC"), COST);
}

let nobodysHash: Promise<string> | undefined;

/**
 * Whether the password is the one behind the hash. Without a hash the same work is done and the answer is no, so that
 * neither words nor time tell whether there is such a person.
 */
export async function passwordMatches(passwordHash: string | null, password: string): Promise<boolean> {
  nobodysHash ??= hashPassword(newSecret());
  const matches = await verify(passwordHash ?? (await nobodysHash), password.normalize("NFKC"));
  return passwordHash !== null && matches;
}
