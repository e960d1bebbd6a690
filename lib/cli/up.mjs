import path from "node:path";
import { createDatabase, startDatabase, withClient } from "./database.mjs";
import { buildApp, checkNode, generateClient, installPackages, keptSecrets, readEnvFile } from "./prepare.mjs";
import { isFree, next, ROOT, run, startService, typescript, untilAnswers } from "./processes.mjs";
import { main, step, Trouble } from "./steps.mjs";

const OLDEST_POSTGRESQL = 15;
const DEMO_LOADED = "The demo has been loaded.";

/**
 * `npm run up`: from a fresh clone to a running Fit or Fault. `npm run dev` (--dev) is the same with hot reload.
 * Without DATABASE_URL it runs the demo on a PostgreSQL of its own.
 */
await main(async () => {
  checkNode();
  readEnvFile();
  const dev = process.argv.includes("--dev");
  const distDir = dev ? ".next/dev" : ".next/up";
  const demo = !process.env.DATABASE_URL;
  const dataFolder = path.resolve(ROOT, process.env.DATA_FOLDER || ".data");
  const services = [];
  let database;
  let stopping;
  const stop = () => {
    stopping ??= (async () => {
      // The app first: it stops taking requests while its jobs and its database are still there.
      for (const service of services) await service.stop();
      if (database && !(await database.stop())) console.log("The database goes on running: others are connected to it.");
    })();
    return stopping;
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) {
    process.on(signal, async () => {
      if (!stopping) console.log("\nStopping ...");
      await stop();
      console.log("Stopped.");
      process.exit(0);
    });
  }

  try {
    await installPackages();
    await generateClient();
    if (demo) {
      database = await step("start PostgreSQL", () => startDatabase({ folder: dataFolder }));
      if (database.place !== dataFolder) console.log(`  its files are in ${database.place}: the user postgres cannot reach this folder`);
      if (database.reused) console.log("  took over the server of an earlier run");
      await createDatabase(database.urlOf("postgres"), "fitorfault");
    } else {
      await step("look at the database of DATABASE_URL", () => checkServer(process.env.DATABASE_URL));
    }

    const port = await choosePort();
    const address = `http://127.0.0.1:${port}`;
    const env = {
      ...(await keptSecrets(dataFolder)),
      APP_ORIGIN: address,
      NEXT_TELEMETRY_DISABLED: "1",
      ...process.env,
      NODE_ENV: dev ? "development" : "production",
      DATA_FOLDER: dataFolder,
      DATABASE_URL: database?.urlOf("fitorfault") ?? process.env.DATABASE_URL,
      DEMO: String(demo),
      NEXT_DIST_DIR: distDir,
    };

    await step("bring the database up to date", () => run(process.execPath, typescript("lib/cli/migrate.ts"), { env }));
    if (demo) await loadDemo(env);
    if (!dev) await buildApp(distDir, env);

    await step(dev ? "start the app with hot reload" : "start the app", async () => {
      const app = startService("the app", next(dev ? "dev" : "start", "-H", process.env.HOST || "127.0.0.1", "-p", String(port)), env, { print: dev });
      const worker = startService("the job worker", typescript("lib/jobs/worker.ts"), env, { print: dev });
      services.push(app, worker);
      await untilAnswers(`${address}/health/ready`, app);
    });
    console.log(`\nFit or Fault is at ${env.APP_ORIGIN}`);
    if (demo) await printSignIns();
    console.log("\nCtrl-C stops it.");

    const ends = services.map((service) => service.ended.then((message) => `${message}; so everything stops.\n${service.output()}`));
    if (database) ends.push(database.ended.then((message) => `${message}; so everything stops. Start it again with the same command.`));
    const message = await Promise.race(ends);
    if (!stopping) throw new Trouble(message);
  } catch (error) {
    // Ctrl-C ends the step that was running; the signal's own handler says so.
    if (stopping) return;
    throw error;
  } finally {
    await stop();
  }
});

async function checkServer(url) {
  const version = await withClient(url, async (client) => {
    const { rows } = await client.query("show server_version_num");
    return Math.floor(Number(rows[0].server_version_num) / 10_000);
  }).catch((error) => {
    throw new Trouble(`The database of DATABASE_URL does not answer: ${error.message || error.code}`);
  });
  if (version < OLDEST_POSTGRESQL) throw new Trouble(`The database of DATABASE_URL is PostgreSQL ${version}; it must be ${OLDEST_POSTGRESQL} or newer.`);
}

async function choosePort() {
  if (process.env.PORT) {
    if (await isFree(Number(process.env.PORT))) return Number(process.env.PORT);
    throw new Trouble(`Port ${process.env.PORT} is taken by another program.`);
  }
  for (let port = 3000; port < 3100; port++) if (await isFree(port)) return port;
  throw new Trouble("No port from 3000 to 3099 is free; choose one with PORT.");
}

/** Loads the demo once; the database itself remembers, as a comment on it. */
async function loadDemo(env) {
  const loaded = await withClient(env.DATABASE_URL, async (client) => {
    const { rows } = await client.query("select shobj_description(oid, 'pg_database') as comment from pg_database where datname = current_database()");
    return rows[0].comment === DEMO_LOADED;
  });
  if (loaded) return;
  await step("load the demo", async () => {
    await run(process.execPath, typescript("seed/seed.ts"), { env });
    await withClient(env.DATABASE_URL, (client) => client.query(`comment on database fitorfault is '${DEMO_LOADED}'`));
  });
}

async function printSignIns() {
  const { tsImport } = await import("tsx/esm/api");
  const { DEMO_PEOPLE } = await tsImport("../../seed/demo-people.ts", import.meta.url);
  console.log("Sign in at /sign-in as");
  for (const { role, name, email, password } of DEMO_PEOPLE) console.log(`  ${role.padEnd(8)} ${email.padEnd(28)} ${password.padEnd(28)} ${name}`);
}
