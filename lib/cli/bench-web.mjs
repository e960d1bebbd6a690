import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { findBrowser } from "./browser.mjs";
import { startDatabase } from "./database.mjs";
import { checkNode, generateClient, installPackages } from "./prepare.mjs";
import { run, typescript } from "./processes.mjs";
import { serveBuild } from "./serve-build.mjs";
import { main } from "./steps.mjs";

/**
 * `npm run bench:web`: the customer's whole filing and a staff page on an emulated phone, measured beside their goals. It
 * has its own server, ports and folders, so that it runs beside `npm run up`.
 */
await main(async () => {
  checkNode();
  await installPackages();
  await generateClient();
  const browser = await findBrowser();
  const folder = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-bench-"));
  const services = [];
  let database;
  const tidy = async () => {
    for (const service of services.reverse()) await service.stop();
    await database?.stop();
    await rm(folder, { recursive: true, force: true });
  };
  for (const signal of ["SIGINT", "SIGTERM"]) {
    process.on(signal, async () => {
      await tidy();
      process.exit(130);
    });
  }
  try {
    database = await startDatabase({ folder, disposable: true });
    const app = await serveBuild(folder, database, "bench", services);
    await run(process.execPath, typescript("tests/bench/web-journey.ts"), { env: { ...process.env, E2E_ORIGIN: app.APP_ORIGIN, E2E_DATABASE_URL: app.DATABASE_URL, ...(browser ? { CHROMIUM_PATH: browser } : {}) } });
  } finally {
    await tidy();
  }
});
