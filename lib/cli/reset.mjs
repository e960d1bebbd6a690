import { rm } from "node:fs/promises";
import path from "node:path";
import { createInterface } from "node:readline/promises";
import { createDatabase, startDatabase, withClient } from "./database.mjs";
import { readEnvFile } from "./prepare.mjs";
import { ROOT } from "./processes.mjs";
import { main, step, Trouble } from "./steps.mjs";

/** `npm run reset`: forgets the demo's claims, photos and mail, after asking. The next `npm run up` loads it afresh. */
await main(async () => {
  readEnvFile();
  if (process.env.DATABASE_URL) throw new Trouble("DATABASE_URL is set: this command wipes the demo only, never a database of your own.");
  if (!process.argv.includes("--yes") && !(await isAgreed())) throw new Trouble("Nothing was changed.");
  const dataFolder = path.resolve(ROOT, process.env.DATA_FOLDER || ".data");
  await step("wipe the demo", async () => {
    const database = await startDatabase({ folder: dataFolder });
    const url = database.urlOf("postgres");
    await createDatabase(url, "fitorfault");
    const inUse = await withClient(url, async (client) => (await client.query("select from pg_stat_activity where datname = 'fitorfault'")).rowCount);
    if (inUse) throw new Trouble("Fit or Fault is running: stop it first.");
    await withClient(url, (client) => client.query("drop database fitorfault"));
    await database.stop();
    for (const folder of ["files", "mail"]) await rm(path.join(dataFolder, folder), { recursive: true, force: true });
  });
});

async function isAgreed() {
  if (!process.stdin.isTTY) throw new Trouble("Say --yes to wipe the demo without being asked.");
  const ask = createInterface({ input: process.stdin, output: process.stdout });
  const answer = await ask.question("This wipes the demo's claims, photos and mail. Go on? (yes/no) ");
  ask.close();
  return /^y(es)?$/i.test(answer.trim());
}
