import { mkdir, writeFile } from "node:fs/promises";
import path from "node:path";
import { migrationDifference } from "@/lib/data/migrations";
import { startDatabase } from "./database.mjs";
import { main, Trouble } from "./steps.mjs";

/** `npm run migration -- <name>`: writes the next migration from the difference between the migrations and the schema. */
await main(async () => {
  const name = process.argv[2];
  if (!name || !/^[a-z][a-z0-9-]*$/.test(name)) throw new Trouble("Give the migration a name of lower case letters, digits and hyphens: npm run migration -- add-fitter-phone");
  const database = await startDatabase({ folder: path.resolve(process.env.DATA_FOLDER || ".data") });
  try {
    const sql = await migrationDifference(database.urlOf("postgres"));
    const stamp = new Date().toISOString().replace(/\D/g, "").slice(0, 14);
    const file = path.join("prisma/migrations", `${stamp}_${name.replaceAll("-", "_")}`, "migration.sql");
    await mkdir(path.dirname(file), { recursive: true });
    await writeFile(file, sql ? `${sql}\n` : "-- The schema asks for nothing new; what Prisma cannot say goes here.\n");
    console.log(`Wrote ${file}. Read it, add checks, partial indexes and triggers by hand, and commit it.`);
  } finally {
    await database.stop();
  }
});
