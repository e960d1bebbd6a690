import { mkdtemp, readFile, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import { findBrowser } from "./browser.mjs";
import { startDatabase } from "./database.mjs";
import { checkNode, generateClient, installPackages } from "./prepare.mjs";
import { attempt, next, run } from "./processes.mjs";
import { serveBuild, TEST_DIST_DIR } from "./serve-build.mjs";
import { main } from "./steps.mjs";

/**
 * `npm test`: everything that must pass, ending with the line `N passed, N failed`. `npm run check` (--check) is its part
 * without database and browser. It has its own server, ports and folders, so that it runs beside `npm run up`.
 */
await main(async () => {
  const tally = { passed: 0, failed: 0 };
  const count = (name, passed, failed, began) => {
    tally.passed += passed;
    tally.failed += failed;
    console.log(`== ${name}: ${passed} passed, ${failed} failed (${((Date.now() - began) / 1000).toFixed(1)} s)`);
  };
  /** A stage that crashes is one failure, and the next stages still run. */
  const stage = async (name, work) => {
    const began = Date.now();
    console.log(`\n== ${name}`);
    try {
      const { passed, failed } = await work();
      count(name, passed, failed, began);
    } catch (error) {
      console.error(error instanceof Error ? error.message : error);
      count(name, 0, 1, began);
    }
  };

  const folder = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-test-"));
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
    await stage("install", async () => {
      checkNode();
      await installPackages();
      await generateClient();
      return { passed: 1, failed: 0 };
    });
    await stage("types", async () => {
      // Next writes the types of the routes; the type check needs them before there is a build.
      await run(process.execPath, next("typegen"), { quiet: true, env: { ...process.env, NEXT_DIST_DIR: TEST_DIST_DIR, NEXT_TELEMETRY_DISABLED: "1" } });
      return check(process.execPath, ["node_modules/typescript/bin/tsc", "--noEmit"]);
    });
    await stage("lint", () => check(process.execPath, ["node_modules/@biomejs/biome/bin/biome", "ci", "--config-path=.biome.jsonc", "--colors=off", "--diagnostic-level=error", "."]));
    if (process.argv.includes("--check")) {
      await stage("unit tests", () => vitest(folder, ["--project", "unit"]));
      return;
    }
    let browser;
    await stage("browser", async () => {
      browser = await findBrowser();
      return { passed: 1, failed: 0 };
    });
    await stage("database", async () => {
      database = await startDatabase({ folder, disposable: true });
      return { passed: 1, failed: 0 };
    });
    await stage("unit and data tests", () => vitest(folder, [], { TEST_SERVER_URL: database.urlOf("postgres") }));
    await stage("journeys in a browser", async () => {
      const app = await serveBuild(folder, database, "journeys", services);
      const result = await playwright(folder, { E2E_ORIGIN: app.APP_ORIGIN, E2E_MAIL_FOLDER: app.MAIL_FOLDER, E2E_DATABASE_URL: app.DATABASE_URL, ...(browser ? { CHROMIUM_PATH: browser } : {}) });
      if (result.failed) for (const service of services) console.log(`-- what ${service.name} said last\n${service.output().slice(-4000)}`);
      return result;
    });
  } finally {
    await tidy();
    // A test run that has tried nothing must not look green.
    process.exitCode = tally.failed || !tally.passed ? 1 : 0;
    console.log(`\n${tally.passed} passed, ${tally.failed} failed`);
  }
});

/** One program that is one test. */
async function check(command, args) {
  const { code } = await attempt(command, args);
  return code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

async function vitest(folder, args, env = {}) {
  const report = path.join(folder, "vitest.json");
  const { code } = await attempt(process.execPath, ["node_modules/vitest/vitest.mjs", "run", "--config", "tests/vitest.config.ts", "--reporter=dot", "--reporter=json", `--outputFile.json=${report}`, ...args], { env: { ...process.env, ...env } });
  const { numPassedTests: passed, numFailedTests, testResults } = JSON.parse(await readFile(report, "utf8"));
  // A file that does not even load has no test that fails.
  const unloadable = testResults.filter((file) => file.status === "failed" && !file.assertionResults.some((test) => test.status === "failed")).length;
  const failed = numFailedTests + unloadable;
  return { passed, failed: code !== 0 && failed === 0 ? 1 : failed };
}

async function playwright(folder, env) {
  const report = path.join(folder, "playwright.json");
  const { code } = await attempt(process.execPath, ["node_modules/@playwright/test/cli.js", "test", "--config", "tests/e2e/playwright.config.ts", "--reporter=list,json"], { env: { ...process.env, ...env, PLAYWRIGHT_JSON_OUTPUT_FILE: report } });
  const { stats, errors } = JSON.parse(await readFile(report, "utf8"));
  const failed = stats.unexpected + errors.length;
  return { passed: stats.expected + stats.flaky, failed: code !== 0 && failed === 0 ? 1 : failed };
}
