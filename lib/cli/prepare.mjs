import { createHash, randomBytes } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, readdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { next, ROOT, run } from "./processes.mjs";
import { step, Trouble } from "./steps.mjs";

const NEEDED_NODE = [20, 19];

/** @throws Trouble when this Node is too old to run anything here */
export function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major > NEEDED_NODE[0] || (major === NEEDED_NODE[0] && minor >= NEEDED_NODE[1])) return;
  throw new Trouble(`Fit or Fault needs Node ${NEEDED_NODE.join(".")} or newer; this is ${process.versions.node}. Install the current LTS version from https://nodejs.org and run the command again.`);
}

/** Reads `.env`, as Next does for itself; what the shell has set comes first. */
export function readEnvFile() {
  const file = path.join(ROOT, ".env");
  if (existsSync(file)) process.loadEnvFile(file);
}

/** Installs the packages of the lock file, where they are not there already. */
export async function installPackages() {
  if (await packagesAreInstalled()) return;
  await step("install the packages", async () => {
    // npm tells the scripts it runs where it is; plain `npm` may be another version.
    const npm = process.env.npm_execpath;
    const args = ["ci", "--include=dev", "--no-audit", "--no-fund"];
    await run(npm ? process.execPath : "npm", npm ? [npm, ...args] : args, { quiet: true, failure: "npm could not install the packages. Is there a way to the registry?" });
  });
}

/** npm writes what it has installed into node_modules as its last act. */
async function packagesAreInstalled() {
  const installed = await readJson(path.join(ROOT, "node_modules/.package-lock.json"));
  const wanted = await readJson(path.join(ROOT, "package-lock.json"));
  if (!installed || !wanted) return false;
  return Object.entries(wanted.packages).every(([name, { version, optional, peer }]) => {
    const there = installed.packages[name];
    // Packages for other systems are optional and stay away.
    return name === "" || (there ? there.version === version : Boolean(optional || peer));
  });
}

/** Generates the Prisma client, where the schema has changed since. */
export async function generateClient() {
  const stamp = await hashOf(["prisma/schema", "prisma/prisma.config.ts", "node_modules/prisma/package.json"]);
  const stampFile = path.join(ROOT, "lib/data/generated/.stamp");
  if ((await readFile(stampFile, "utf8").catch(() => "")) === stamp) return;
  await step("generate the Prisma client", async () => {
    await run(process.execPath, ["node_modules/prisma/build/index.js", "generate", "--config", "prisma/prisma.config.ts"], {
      quiet: true,
      // Any file that exists keeps Prisma from fetching an engine that generating does not use.
      env: { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, PRISMA_HIDE_UPDATE_MESSAGE: "1", CHECKPOINT_DISABLE: "1" },
    });
    await writeFile(stampFile, stamp);
  });
}

/**
 * Builds the app into a folder, where the sources have changed since.
 *
 * @param {string} distDir such as ".next/up"
 * @param {Record<string, string | undefined>} env the settings it is built with
 */
export async function buildApp(distDir, env) {
  const sources = await hashOf(["app", "lib", "proxy.ts", "instrumentation.ts", "next.config.mjs", "tsconfig.json", "package.json", "package-lock.json"]);
  // Actions are encrypted with this key when they are built; another key would refuse them. Whether HSTS is sent is built in too.
  const stamp = createHash("sha256").update(`${sources} ${env.NEXT_SERVER_ACTIONS_ENCRYPTION_KEY} ${env.APP_ORIGIN?.startsWith("https:")}`).digest("hex");
  const stampFile = path.join(ROOT, distDir, "built-from");
  if ((await readFile(stampFile, "utf8").catch(() => "")) === stamp) return;
  await step("build the app", async () => {
    await rm(stampFile, { force: true });
    await run(process.execPath, next("build"), { quiet: true, env: { ...env, NEXT_DIST_DIR: distDir, NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" }, failure: "The app could not be built." });
    await writeFile(stampFile, stamp);
  });
}

/**
 * The secrets of this installation, made once and kept with mode 600.
 *
 * @returns {Promise<{ NEXTAUTH_SECRET: string, NEXT_SERVER_ACTIONS_ENCRYPTION_KEY: string }>}
 */
export async function keptSecrets(dataFolder) {
  const file = path.join(dataFolder, "secrets.json");
  const kept = await readJson(file);
  if (kept) return kept;
  const made = { NEXTAUTH_SECRET: randomBytes(48).toString("base64"), NEXT_SERVER_ACTIONS_ENCRYPTION_KEY: randomBytes(32).toString("base64") };
  await mkdir(dataFolder, { recursive: true });
  await writeFile(`${file}.new`, JSON.stringify(made), { mode: 0o600 });
  await rename(`${file}.new`, file);
  return made;
}

async function readJson(file) {
  try {
    return JSON.parse(await readFile(file, "utf8"));
  } catch (error) {
    if (error.code === "ENOENT") return undefined;
    throw error;
  }
}

/** A hash of the contents of files and folders; what is not there counts as empty. */
async function hashOf(places) {
  const hash = createHash("sha256");
  for (const place of places) await addToHash(hash, place);
  return hash.digest("hex");
}

async function addToHash(hash, place) {
  const full = path.join(ROOT, place);
  if (!existsSync(full)) return;
  const entries = await readdir(full, { withFileTypes: true }).catch(() => undefined);
  if (!entries) {
    hash.update(`${place}\n`).update(await readFile(full));
    return;
  }
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (entry.name !== "generated") await addToHash(hash, path.join(place, entry.name));
  }
}
