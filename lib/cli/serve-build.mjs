import path from "node:path";
import { createDatabase } from "./database.mjs";
import { buildApp } from "./prepare.mjs";
import { freePort, next, run, startService, typescript, untilAnswers } from "./processes.mjs";

/** Where the build for tests and benches goes. */
export const TEST_DIST_DIR = ".next/test";

/**
 * Builds, migrates, seeds and serves the app on a port of its own, with a twentieth of the demo.
 *
 * @param {string} folder for its files and mail
 * @param {{ urlOf(database: string): string }} database
 * @param {string} name of the database that is made for it
 * @param {ReturnType<typeof startService>[]} services what was started is added here
 * @returns the settings it runs with
 */
export async function serveBuild(folder, database, name, services) {
  const port = await freePort();
  await createDatabase(database.urlOf("postgres"), name);
  const env = {
    ...process.env,
    NODE_ENV: "production",
    NEXTAUTH_SECRET: "a secret of forty characters for tests only",
    NEXT_SERVER_ACTIONS_ENCRYPTION_KEY: Buffer.alloc(32, "test").toString("base64"),
    APP_ORIGIN: `http://127.0.0.1:${port}`,
    DATABASE_URL: database.urlOf(name),
    DATA_FOLDER: folder,
    FILES_FOLDER: path.join(folder, "files"),
    MAIL_FOLDER: path.join(folder, "mail"),
    DEMO: "true",
    SEED_SCALE: "0.05",
    LOG_LEVEL: "warn",
    NEXT_DIST_DIR: TEST_DIST_DIR,
    NEXT_TELEMETRY_DISABLED: "1",
  };
  await buildApp(TEST_DIST_DIR, env);
  await run(process.execPath, typescript("lib/cli/migrate.ts"), { env });
  await run(process.execPath, typescript("seed/seed.ts"), { env });
  const app = startService("the app", next("start", "-H", "127.0.0.1", "-p", String(port)), env, { print: false });
  services.push(app, startService("the job worker", typescript("lib/jobs/worker.ts"), env, { print: false }));
  await untilAnswers(`${env.APP_ORIGIN}/health/ready`, app);
  return env;
}
