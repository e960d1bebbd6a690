import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import type { TestProject } from "vitest/node";
import { createDatabase, startDatabase, withClient } from "@/lib/cli/database.mjs";
import { run, typescript } from "@/lib/cli/processes.mjs";

declare module "vitest" {
  interface ProvidedContext {
    /** The address of a server for tests; each worker makes its own database from the template there. */
    testServerUrl: string;
  }
}

const TEMPLATE = "migrated_template";

/**
 * Starts a PostgreSQL for the tests, or uses the one of TEST_SERVER_URL, and migrates a template database there.
 *
 * @returns what stops it again
 */
export default async function prepare(project: TestProject): Promise<() => Promise<void>> {
  const given = process.env.TEST_SERVER_URL;
  const folder = given ? undefined : await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-tests-"));
  const server = folder ? await startDatabase({ folder, disposable: true }) : undefined;
  const serverUrl = given ?? server?.urlOf("postgres") ?? "";

  await withClient(serverUrl, (client) => client.query(`drop database if exists ${TEMPLATE} with (force)`));
  await createDatabase(serverUrl, TEMPLATE);
  const templateUrl = new URL(serverUrl);
  templateUrl.pathname = `/${TEMPLATE}`;
  await run(process.execPath, typescript("lib/cli/migrate.ts"), {
    quiet: true,
    env: { ...process.env, DATABASE_URL: templateUrl.href, APP_ORIGIN: "http://127.0.0.1:3000", NEXTAUTH_SECRET: "a secret of forty characters for tests only" },
  });
  project.provide("testServerUrl", serverUrl);

  return async () => {
    await server?.stop();
    if (folder) await rm(folder, { recursive: true, force: true });
  };
}
