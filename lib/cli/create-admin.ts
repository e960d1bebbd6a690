import { randomBytes } from "node:crypto";
import { createInterface } from "node:readline/promises";
import { disconnect } from "@/lib/data/client";
import { createFirstAdministrator } from "@/lib/operations/create-first-administrator";
import { main, Trouble } from "./steps.mjs";

/**
 * `npm run create-admin -- <e-mail> <name>`: makes the first administrator of the installation at DATABASE_URL. The
 * password is asked for; left empty, or without a terminal, one is made and shown once.
 */
await main(async () => {
  const [email, ...names] = process.argv.slice(2);
  if (!email || names.length === 0) throw new Trouble("Say who it is: npm run create-admin -- anna@example.com Anna Example");
  const chosen = await askForPassword();
  const password = chosen || randomBytes(12).toString("base64url");
  const made = await createFirstAdministrator({ email, name: names.join(" "), password });
  await disconnect();
  if (!made.ok) throw new Trouble(`No administrator was made: ${made.reason.replaceAll("-", " ")}.`);
  console.log(`${email} can sign in as administrator.`);
  if (!chosen) console.log(`Password, shown this once: ${password}`);
});
// Prisma leaves the timer of a transaction running, which would keep this process for 10 s more.
process.exit();

async function askForPassword(): Promise<string> {
  if (!process.stdin.isTTY) return "";
  const ask = createInterface({ input: process.stdin, output: process.stdout });
  const answer = await ask.question("Password (15 characters or more; empty to have one made): ");
  ask.close();
  return answer;
}
