import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { afterAll, inject } from "vitest";
import { withClient } from "@/lib/cli/database.mjs";

// A database and folders of its own for each test file, before anything reads the settings.
const name = `worker_${process.env.VITEST_POOL_ID ?? "1"}`;
const serverUrl = inject("testServerUrl");
await withClient(serverUrl, async (client) => {
  await client.query(`drop database if exists ${name} with (force)`);
  await client.query(`create database ${name} template migrated_template`);
});
const url = new URL(serverUrl);
url.pathname = `/${name}`;
process.env.DATABASE_URL = url.href;
process.env.DATA_FOLDER = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-files-"));

afterAll(async () => {
  const { disconnect } = await import("@/lib/data/client");
  await disconnect();
  await rm(process.env.DATA_FOLDER ?? "", { recursive: true, force: true });
});
