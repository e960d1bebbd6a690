/**
 * 200,000 shipments brought in: rows a second and the memory it takes, `npm run bench -- import`. On a database of its own,
 * beside the same rows read and put unchecked into a table, in the same run.
 */
import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { createDatabase, startDatabase } from "@/lib/cli/database.mjs";
import { run, typescript } from "@/lib/cli/processes.mjs";

const ROWS = 200_000;
const folder = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-bench-"));
const server = await startDatabase({ folder, disposable: true });
try {
  await createDatabase(server.urlOf("postgres"), "import_bench");
  const env = { ...process.env, DATABASE_URL: server.urlOf("import_bench"), APP_ORIGIN: "http://127.0.0.1:3000", NEXTAUTH_SECRET: "a secret of forty characters for benches only", DATA_FOLDER: path.join(folder, "data"), LOG_LEVEL: "silent" };
  await run(process.execPath, typescript("lib/cli/migrate.ts"), { quiet: true, env });
  await run(process.execPath, typescript("tests/bench/import-figures-run.ts", String(ROWS)), { env });
} finally {
  await server.stop();
  await rm(folder, { recursive: true, force: true });
}
